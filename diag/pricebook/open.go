package pricebook

import (
	"strings"

	"benchlead/diag/source"
)

// MaxBytes is the largest table that is read: more than a hundred thousand prices.
const MaxBytes = 16 << 20

// The codes of what Read reports, beside those of packages repair, money and shape.
const (
	CodeQuote     source.Code = "broken-quotes"
	CodeRow       source.Code = "uneven-row"
	CodeColumn    source.Code = "bad-column"
	CodeAmbiguous source.Code = "ambiguous-number"
	CodeNumber    source.Code = "bad-number"
	CodeYesNo     source.Code = "neither-yes-nor-no"
	CodeSupplier  source.Code = "other-supplier"
	CodeCurrency  source.Code = "other-currency"
	CodeEmpty     source.Code = "table-empty"
	CodeMany      source.Code = "too-many-mistakes"
)

// Open takes the content of a table. It must be UTF-8, with a byte-order mark or
// without; otherwise the first byte that is not is reported.
func Open(name string, data []byte) (*source.File, source.Issues) {
	f, issues := source.OpenUpTo(name, data, MaxBytes)
	if len(issues) > 0 {
		return nil, issues
	}
	if i := strings.IndexByte(f.Text, 0); i >= 0 {
		line := 1 + strings.Count(f.Text[:i], "\n")
		start := strings.LastIndexByte(f.Text[:i], '\n') + 1
		return nil, source.Issues{{
			Code: source.CodeNotText, Place: f.At(line, len([]rune(f.Text[start:i]))+1, 1),
			Message: "a zero byte stands here: the file is no UTF-8 text", Hint: "save the table as CSV, in UTF-8",
		}}
	}
	return f, nil
}
