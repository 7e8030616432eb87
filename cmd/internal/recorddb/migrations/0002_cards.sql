-- Cards: what each job is listed, looked for and counted by. They follow from
-- the events and are written in the same transaction; deleting them all makes
-- the program write them again when it next opens the record.

-- Lists are JSON. outcome is '' while the job is open, ended 0. spent is in
-- microseconds, quoted in minutes. marks are all marks of the job with a space
-- before, between and after them.
create table cards (
    job       bigint not null primary key references jobs (id),
    opened    bigint not null,
    last      bigint not null,
    ended     bigint not null,
    outcome   text   not null,
    system    text   not null,
    complaint text   not null,
    machine   text   not null,
    owner     text   not null,
    words     text   not null,
    found     text   not null,
    came      text   not null,
    faults    text   not null,
    repairs   text   not null,
    parts     text   not null,
    quoted    bigint not null,
    spent     bigint not null,
    marks     text   not null
);

create index cards_opened on cards (opened, job);
create index cards_outcome on cards (outcome, opened);

-- What jobs are found by: words, and kinds with ids. Words are compared by their
-- bytes: where a server sorts by language, the column wants the collation "C".
create table marks (
    mark text   not null,
    job  bigint not null references jobs (id)
);

create index marks_mark on marks (mark, job);
