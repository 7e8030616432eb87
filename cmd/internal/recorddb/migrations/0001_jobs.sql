-- Jobs and their events. Whole numbers are bigint, times are microseconds since
-- 1970 UTC, text is text, and numbers of jobs and events are given by the
-- program, so that the same file serves other SQL servers.

create table jobs (
    id bigint not null primary key check (id > 0)
);

-- body is the whole event as one line of JSON; seq, at and kind repeat what it
-- says, for ordering and searching.
create table events (
    job  bigint not null references jobs (id),
    seq  bigint not null check (seq > 0),
    at   bigint not null,
    kind text   not null check (kind <> ''),
    body text   not null,
    primary key (job, seq)
);

create index events_kind on events (kind, job);
