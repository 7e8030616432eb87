-- The pieces of the parts bin. What was binned and drawn before is filled in by
-- the program, from the events (fill_bin.go).

-- body is the binned event as one line of JSON, its part repeated for searching.
-- job is the one that a piece came off, seq its event; drawn the one that took
-- it, drawn_seq its event; null where there is none. gone is how it went for good
-- without a job, '' when it did not.
create table bin (
    number    bigint not null primary key check (number > 0),
    name      text   not null unique check (name <> ''),
    part      text   not null,
    body      text   not null,
    job       bigint references jobs (id),
    seq       bigint,
    drawn     bigint references jobs (id),
    drawn_seq bigint,
    gone      text   not null default '',
    gone_why  text   not null default '',
    gone_at   bigint not null default 0,
    check ((job is null) = (seq is null)),
    check ((drawn is null) = (drawn_seq is null)),
    check (drawn is null or gone = '')
);
