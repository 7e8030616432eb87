// Package repair turns a verdict into repair paths with money: every smallest
// set of repairs that clears all findings, times the grades of part that can
// be had, and beside them selling as is, parting out and handing back
// unrepaired. It is pure: the same library, verdict and price book always give
// the same offers.
//
// # The price book
//
// A shop writes its prices in one YAML file, read by [LoadPrices], or keeps them in
// its record, where tables are imported (package pricebook). How it charges stands in
// its settings (package shop).
//
//	prices:
//	  - {part: pack, grade: original, price: "84.00", stock: 0, lead days: 4, returnable: no,
//	     freight: "6.00", disposal: "3.00", core deposit: "10.00", note: two-year warranty}
//	  - {part: starter, grade: original, price: "168.00", supplier: Ottermere, number: OM-10,
//	     date: 2026-03-31, replaced by: OM-12, set: starter and drive}
//	worth:                          # of a sound machine, by system or by its "machine"
//	  button-start-pack: "180.00"
//	leaving:
//	  as is percent: 25             # of worth, for the machine with its faults
//	  part out percent: 20          # of worth, for its good parts together
//	  part out minutes: 60
//
// Amounts are exact decimals, in quotes or plain, with a point and at most four
// places; no sign, no thousands separator. A grade is original, aftermarket or
// bin (a tested used part, offered only while it is in stock). A part may have
// several lines in one grade: two sellers. A line is told from the others by part,
// grade, supplier and number, and without a number by its note. Freight is paid once a line that has
// to be ordered, disposal for each piece, the core deposit comes back with the
// old part and is shown beside the total.
//
// A number that is "replaced by" another of the same supplier is not offered; the last
// one that it leads to is, and says what it replaces. Numbers that replace each other
// in a circle are refused. When the other has no price, the old number is offered, and
// said to be replaced. A price with a date is marked once it is older than the shop's
// settings allow ([PriceBook.At] says what day it is).
//
// # The parts bin
//
// Pieces of the record's parts bin ([Choices].Pieces) are offered in grade bin at
// their asking price, each with what was read on it, while they are free, have
// that price in the shop's currency, and show what the trees ask of such a part.
// A part that never lies in the bin is never offered. Of a part that ever lay there
// the book's lines of grade bin count no more.
//
// # How a quote adds up
//
// Parts, labour, other (consumables, freight, disposal, a fee that is not
// credited) and tax are each rounded to "round to", halves up; the total is the
// sum of the rounded lines, so that it can be checked by hand. What is taxed,
// and at what rate, is local law; the shop's own figures are used as given.
package repair
