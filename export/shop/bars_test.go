package shop

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"ribwright/export"
	"ribwright/geom/cut"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

// sawn is the bars of a demo, and of it from short bars.
func sawn(t *testing.T, do func(what string, doc *ribfile.Doc, b cut.Bars)) {
	t.Helper()
	for _, j := range demos(t) {
		for _, bars := range [][]ribfile.Bar{j.doc.Stock.Bars, {{Length: 1200, Of: "both"}}} {
			doc := *j.doc
			doc.Stock.Bars = bars
			b := cut.NewBars(rib.One(j.rib, &doc)).Planned()
			do(fmt.Sprintf("%s, %v", j.name, bars), &doc, b)
		}
	}
}

// TestBarDiagrams holds the diagrams: every bar once, as long as it is at the scale stated, each piece as long as it
// is, and lettering that clears its neighbours and stays on the page.
func TestBarDiagrams(t *testing.T) {
	sawn(t, func(what string, doc *ribfile.Doc, b cut.Bars) {
		for i, d := range []export.Drawing{Bars(doc, b), BarPages(doc, b, Page{W: 210, H: 297, Margin: 10}), BarPages(doc, b, Page{W: 279.4, H: 215.9, Margin: 10}), BarPages(doc, b, Page{W: 148, H: 210, Margin: 8})} {
			what := fmt.Sprintf("%s, paper %d", what, i)
			if err := d.Check(); err != nil {
				t.Errorf("%s: %v", what, err)
			}
			scale := 0.0
			bars, pieces := 0, 0
			for _, s := range d.Sheets {
				items := all(s)
				if o := overlaps(items, map[string]bool{layerCut: true}); len(o) > 0 {
					t.Errorf("%s, %s: %v", what, s.Name, o)
				}
				if s.W < s.H && i > 0 {
					t.Errorf("%s: %s stands upright", what, s.Name)
				}
				box := bounds(items)
				if box.Min.X < 7.9 || box.Min.Y < 7.9 || box.Max.X > s.W-7.9 || box.Max.Y > s.H-7.9 {
					t.Errorf("%s, %s: %v on %g × %g", what, s.Name, box, s.W, s.H)
				}
				for _, it := range items {
					if it.Text != nil && it.Text.Height < small {
						t.Errorf("%s: %q is %g high", what, it.Text.S, it.Text.Height)
					}
					if it.Text != nil && strings.HasPrefix(it.Text.S, "Lengths 1 : ") {
						if _, err := fmt.Sscanf(it.Text.S, "Lengths 1 : %g,", &scale); err != nil {
							t.Fatal(err)
						}
					}
				}
				for _, it := range items {
					switch {
					case strings.HasPrefix(it.ID, "bar-"):
						u := b.Uses()[bars]
						if it.ID != fmt.Sprintf("bar-%d", bars+1) || math.Abs(it.Path.Box().W()*scale-b.Jobs[u.Job].Kinds[u.Stock].Length) > 1e-6 {
							t.Errorf("%s: %s is %g long at 1 : %g", what, it.ID, it.Path.Box().W()*scale, scale)
						}
						bars, pieces = bars+1, 0
					case strings.HasPrefix(it.ID, "piece-"):
						u := b.Uses()[bars-1]
						if p := b.Jobs[u.Job].Pieces[u.Cuts[pieces].Piece]; math.Abs(it.Path.Box().W()*scale-p.Length) > 1e-6 {
							t.Errorf("%s, bar %d: %s is %g long, want %g", what, bars, p.Name(), it.Path.Box().W()*scale, p.Length)
						}
						pieces++
					}
				}
			}
			if bars != len(b.Uses()) {
				t.Errorf("%s: %d bars drawn, want %d", what, bars, len(b.Uses()))
			}
		}
	})
}

// TestBarTables: the lists count every piece, and what is bought is what is sawn.
func TestBarTables(t *testing.T) {
	sawn(t, func(what string, doc *ribfile.Doc, b cut.Bars) {
		pieces, want := 0.0, 0
		for _, j := range b.Jobs {
			for _, p := range j.Pieces {
				want += p.Count
			}
		}
		tables := BarTables(doc, b)
		sawn := 0.0
		for _, row := range tables[0].Rows {
			sawn += row[1].Num
			pieces += row[1].Num * row[4].Num
		}
		if int(pieces) != want {
			t.Errorf("%s: %g pieces in the list, want %d", what, pieces, want)
		}
		bought := 0
		for _, r := range BarsToBuy(doc, b) {
			bought += r.Count
		}
		if bought != int(sawn) {
			t.Errorf("%s: %d bars to buy, %g sawn", what, bought, sawn)
		}
		notes := strings.Join(tables[0].Notes, "\n")
		for _, j := range b.Jobs {
			if j.Plan.Least && !strings.Contains(notes, "no plan needs fewer") && !strings.Contains(notes, "no plan costs less") {
				t.Errorf("%s: that %d bars are the fewest is not said:\n%s", what, j.Plan.Bars, notes)
			}
		}
		if !strings.Contains(notes, "1 in 15") || (len(tables) == 3) != (len(b.Scarfs) > 0) {
			t.Errorf("%s: %d tables, %d scarfs, notes:\n%s", what, len(tables), len(b.Scarfs), notes)
		}
	})
}

// TestBuySum: the sum of what has a price says so where not everything has one.
func TestBuySum(t *testing.T) {
	rows := []BuyRow{{What: "bars", Count: 3, Price: 2.5}, {What: "plywood", Count: 2, Price: 10}, {What: "glue", Count: 1}}
	for n, want := range map[int]string{2: "all 27.50", 3: "all that has a price 27.50"} {
		got := Buy(rows[:n]).Rows
		last := got[len(got)-1]
		if s := last[0].Text + " " + last[5].Text; s != want {
			t.Errorf("%d rows: %q, want %q", n, s, want)
		}
	}
}
