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
//
// A price in the book is what the customer pays, unless the shop's settings have a
// markup for its grade: then it is the shop's cost, and the customer pays
// cost x (1 + markup) for each piece, rounded. Where no markup is set the price is
// taken for the cost, too: nothing else is known. What is asked for a piece of the
// parts bin is what the customer pays.
//
// # What a path costs beyond its bill
//
// Worked with a pack of 84.00 (cost, no markup, to be ordered, can't go back, usual
// life 2 seasons), fitted in 10 minutes at 48.00 an hour, 7.5 % tax on parts: parts
// 84.00 + labour 8.00 + tax 6.30 = 98.30, which is [Path.Total], cash now.
//
//   - [Outlay] is what has to be ordered, at cost, with its freight and core deposits.
//     What lies on the shelf was paid before.
//   - [Risk] is the parts that are ordered and can't go back, at cost, times how likely
//     none of the findings is there for which they are bought. Wrong in 10 of 100:
//     84.00 x 0.10 = 8.40.
//   - [Comeback] is (1 - how likely the repairs clear all that is wrong) x (labour rate x
//     minutes + minimum labour), the work done again for nothing; and the parts of each
//     grade at cost x its chance to fail, where the shop gives a warranty on the grade.
//     Clearing all in 72 of 100, minimum 25.00: 0.28 x (8.00 + 25.00) = 9.24; failing
//     in 3 of 100: 84.00 x 0.03 = 2.52; together 11.76. While nobody weighed the
//     suspects it is not known, which is not nothing.
//   - [Path.OverSeasons] is the total and what is bought again because it wore out. A
//     part with the life L is worn out after L, 2L, 3L ... seasons and bought again each
//     time that this is before the N seasons are over, so ceil(N/L) - 1 times (for whole
//     figures the same as floor((N-1)/L)), at what the customer pays now, with tax on
//     parts, without work. Over 3 seasons once: 98.30 + 84.00 + 6.30 = 188.60. A used
//     part has half its life left unless more or less is stated, and so has the used one
//     after it (judgement). What
//     wears on the machine and stays there has half its life left too, and the cheapest
//     new one follows; it counts only where another path buys it or a conversion takes
//     it off for good, which saves it.
//   - [Path.Margin] is for a shop that buys the machine as it is, to sell it: what it is
//     worth repaired - what it is worth as it is - [Path.AtCost]. At cost are parts at
//     cost, work at the labour rate without the minimum, freight, disposal and
//     consumables: no tax, because parts of what is sold again usually bear none (local
//     law may differ), and no fee. A sound machine is worth 180.00, as it is 25 %:
//     180.00 - 45.00 - (84.00 + 8.00) = 43.00. After a conversion it is worth the part
//     of it that the settings say (judgement).
//
// # Aims and folding
//
// An [Aim] ranks the paths. A path that another beats in everything is folded, with the
// reason; one that is first under some aim never is. Selling as is and parting out
// stand beside the paths; only the best margin of a machine that is the shop's own ranks
// them among them.
//
// # What a test is worth
//
// While it isn't sure what is wrong, a path is expected to cost, until the machine is
// right: its total, the parts that fail under warranty, and for each suspect that it
// doesn't clear, times how likely that is, the work done again for nothing and the total
// of the cheapest way to clear what is left. What may be wrong and is on nobody's list
// costs the work done again. The paths to choose from clear the findings, or the
// findings with a suspect that is likelier than 5 of 100, now or after an answer.
//
// A test is worth what the best choice is expected to cost now, less what the best
// choice after each of its answers is expected to cost, less its minutes at the labour
// rate. It is named when that is more than nothing and an answer changes the choice.
// Worked: the pack is found; with 40 of 100 the starter is bad besides (a new one
// comes to 138.13). The pack alone is expected to cost 98.30 + 0.40 x (8.00 + 138.13) =
// 156.752, a rope start that settles both 203.88. A test of 5 minutes that tells: without
// a bad starter 98.30, with one 203.88, which is 0.60 x 98.30 + 0.40 x 203.88 = 140.532.
// Worth 156.752 - 140.532 - 4.00 = 12.22.
package repair
