// Package pricebook reads, writes, compares and searches price books that are tables:
// CSV files, as suppliers and spreadsheets write them. What a price is, is package
// repair's.
//
// # The table
//
// One row a price, under a row with the names of the columns, in any order. The
// columns are
//
//	part          the part's id, as the trees have it (needed)
//	grade         original, aftermarket or bin (needed)
//	price         for one (needed)
//	supplier      who sells it
//	number        the supplier's own
//	core deposit  for one; comes back with the old part
//	freight       once, when it has to be ordered
//	disposal      of the old part, each
//	stock         how many are in the shop
//	lead days     when it has to be ordered
//	returnable    yes or no
//	date          of the price: 2026-03-31
//	replaced by   the number, of the same supplier, that took its place
//	set           a name; pieces with the same name are bought together
//	note          anything
//	currency      must be the shop's
//
// and each goes by some other names as well (columns.go). Unknown columns are named
// and passed over. What separates the values, comma, semicolon or tab, is told from
// the first row. Values that hold it, or a quote, stand in quotes, and a quote in
// them is written twice (RFC 4180).
//
// Amounts have a decimal point or a comma; thousands may be set off. Where that
// leaves two meanings (1,234) the amount is refused until Options.Decimal says which.
//
// A row is the same price as one in the book when part, grade, supplier and number
// are the same; a note counts only where there is no number. Columns that the table
// doesn't have leave what the book says.
//
// With any mistake in it nothing of a table is taken: Read reports all of them, each
// with line and column.
package pricebook
