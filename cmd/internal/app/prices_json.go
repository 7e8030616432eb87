package app

import "benchlead/diag/repair"

// listedPrice is one price as --json prints it. Amounts are exact decimals in text.
type listedPrice struct {
	Part       string `json:"part"`
	Grade      string `json:"grade"`
	Supplier   string `json:"supplier"`
	Number     string `json:"number"`
	Price      string `json:"price"`
	Currency   string `json:"currency"`
	Core       string `json:"core_deposit"`
	Freight    string `json:"freight"`
	Disposal   string `json:"disposal"`
	Stock      int    `json:"stock"`
	LeadDays   int    `json:"lead_days"`
	Returnable bool   `json:"returnable"`
	Date       string `json:"date"`
	Stale      bool   `json:"stale"`
	ReplacedBy string `json:"replaced_by"`
	Set        string `json:"set"`
	Note       string `json:"note"`
}

func (p *program) listedPrices(book *repair.PriceBook, prices []repair.Price) []listedPrice {
	out := []listedPrice{}
	for _, x := range prices {
		out = append(out, listedPrice{
			Part: x.Part, Grade: string(x.Grade), Supplier: x.Supplier, Number: x.Number, Price: x.Each.String(), Currency: book.Shop.Currency,
			Core: x.Core.String(), Freight: x.Freight.String(), Disposal: x.Disposal.String(), Stock: x.Stock, LeadDays: x.LeadDays,
			Returnable: x.Returnable, Date: x.Date, Stale: book.Stale(x), ReplacedBy: x.ReplacedBy, Set: x.Set, Note: x.Note,
		})
	}
	return out
}
