-- The price book. Amounts are exact decimals in text, dates are text such as
-- 2026-03-31, what is not known is empty or 0. Which lines are two of the same is
-- for the program to say; line is the order in which they were put in.

create table prices (
    line        bigint not null primary key check (line > 0),
    part        text   not null check (part <> ''),
    grade       text   not null check (grade <> ''),
    supplier    text   not null,
    number      text   not null,
    price       text   not null check (price <> ''),
    core        text   not null,
    freight     text   not null,
    disposal    text   not null,
    stock       bigint not null check (stock >= 0),
    lead_days   bigint not null check (lead_days >= 0),
    returnable  bigint not null check (returnable in (0, 1)),
    date        text   not null,
    replaced_by text   not null,
    piece_of    text   not null,
    note        text   not null
);
