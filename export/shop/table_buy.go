package shop

import (
	"fmt"

	"ribwright/export"
	"ribwright/geom/cut"
	"ribwright/geom/ribfile"
)

// BuyRow is a line of the list of what to buy.
type BuyRow struct {
	What, Size string
	Count      int     // needed
	Have       int     // said to be there; 0: nothing is said
	Price      float64 // of one; 0: not known
}

// Buy returns the list of what to buy, with the sum of what has a price.
func Buy(rows []BuyRow) export.Table {
	t := export.Table{ID: "buy", Title: "To buy, or to take from stock",
		Columns: []export.Column{text("what", "what"), text("size", "size"), number("count", "needed", ""), text("have", "in stock"), text("price_each", "price of one"), text("price", "price")},
		Notes:   []string{"Nothing is counted for pieces that are spoilt: add what you need."}}
	sum, priced := 0.0, 0
	money := func(v float64) export.Cell { return export.Num(v, fmt.Sprintf("%.2f", v)) }
	for _, r := range rows {
		each, all, have := export.Str("-"), export.Str("-"), export.Str("-")
		if r.Price > 0 {
			each, all = money(r.Price), money(r.Price*float64(r.Count))
			priced++
		}
		if r.Have > 0 {
			have = count(r.Have)
		}
		sum += float64(r.Price * float64(r.Count))
		t.Rows = append(t.Rows, []export.Cell{export.Str(r.What), export.Str(r.Size), count(r.Count), have, each, all})
	}
	if priced > 0 && len(rows) > 1 {
		name := "all"
		if priced < len(rows) {
			name = "all that has a price"
		}
		t.Rows = append(t.Rows, []export.Cell{export.Str(name), export.Str(""), export.Str(""), export.Str(""), export.Str(""), money(sum)})
	}
	return t
}

// PlywoodToBuy returns the sheets of plywood that the layout takes.
func PlywoodToBuy(doc *ribfile.Doc, l cut.Layout) []BuyRow {
	var out []BuyRow
	for i, s := range l.Stock {
		n := 0
		for _, k := range l.Sheets {
			if k.Stock == i {
				n += k.Count
			}
		}
		if n > 0 {
			out = append(out, BuyRow{What: l.Ply.Material + ", " + doc.Length(l.Ply.Thickness), Size: s.Name, Count: n, Have: s.Count, Price: s.Price})
		}
	}
	return out
}
