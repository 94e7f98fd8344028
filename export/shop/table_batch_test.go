package shop_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"ribwright/export"
	"ribwright/export/shop"
	"ribwright/geom/batch"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
	"ribwright/geom/session"
	"ribwright/geom/takeoff"
)

// cells returns the cells of the table's column, whose key begins so.
func cells(t *testing.T, tab export.Table, key string) []export.Cell {
	t.Helper()
	i := slices.IndexFunc(tab.Columns, func(c export.Column) bool { return strings.HasPrefix(c.Key, key) })
	if i < 0 {
		t.Fatalf("%s has no column %q", tab.ID, key)
	}
	var out []export.Cell
	for _, r := range tab.Rows {
		if len(r) != len(tab.Columns) {
			t.Fatalf("%s: a row of %d cells under %d columns", tab.ID, len(r), len(tab.Columns))
		}
		out = append(out, r[i])
	}
	return out
}

func sum(cs []export.Cell) float64 {
	v := 0.0
	for _, c := range cs {
		v += c.Num
	}
	return v
}

// TestBatchTables holds the list of batches against the take-off: every side once, weighed for no less than it needs, and
// no more than the scale's steps make it, and what is bought against what is weighed.
//
// Common practice, no source: three to four ribs' sides from one small cup, half an hour for both sides of a rib, and
// equal parts by weight at 1:1.
func TestBatchTables(t *testing.T) {
	for _, file := range []string{"marsh-wren", "reed-bunting", "starter"} {
		r, doc := layOut(t, "cmd/ribwright/demo/"+file+".toml")
		set, take := rib.One(r, doc), takeoff.Of(r, doc)
		p := batch.Of(set, []takeoff.TakeOff{take})
		tab := shop.Batches(set, p)
		gram := 1.0
		if doc.Scale.Shows == ribfile.Inch {
			gram = ribfile.GramsPerOunce
		}
		read, sides := gram*sum(cells(t, tab, "reading_total")), cells(t, tab, "sides")
		need := float64(r.Count)*take.Adhesive.MixedG + float64(len(p.Batches))*take.Coupon.Adhesive.MixedG
		if int(sum(sides)) != 2*r.Count || read < need-1e-6 || read > need+4*float64(len(p.Batches))*doc.Scale.Step {
			t.Errorf("%s: %g sides of %d ribs, %.2f g weighed for %.2f g", file, sum(sides), r.Count, read, need)
		}
		for i, c := range sides {
			if r.Count > 4 && (c.Num < 3 || c.Num > 4) {
				t.Errorf("%s: batch %d does %g sides", file, i+1, c.Num)
			}
		}
		if doc.Batch.Pace != 15 {
			t.Errorf("%s: a side takes %g min", file, doc.Batch.Pace)
		}
		buy := shop.AdhesiveToBuy(doc, p)
		if a := cells(t, tab, "reading_a"); doc.Adhesive.RatioB == 1 && (buy[0].Size != buy[1].Size || math.Abs(gram*sum(a)-read/2) > doc.Scale.Step*float64(len(a))) {
			t.Errorf("%s: 1:1 by weight, but %+v", file, buy)
		}
		for _, n := range tab.Notes {
			if strings.Contains(n, "NaN") || strings.Contains(n, "Inf") {
				t.Errorf("%s: %s", file, n)
			}
		}
		if all := shop.Buy(append([]shop.BuyRow{{What: "sheet", Count: 2, Price: 3.5}}, buy...)); all.Rows[len(all.Rows)-1][5].Num != 7 || all.Rows[len(all.Rows)-1][0].Text == "all" {
			t.Errorf("%s: the sum is %+v", file, all.Rows[len(all.Rows)-1])
		}
	}
}

// TestAdhesiveTables holds the lists of adhesive against each other: the sides add up to the rib, and so do the joints.
func TestAdhesiveTables(t *testing.T) {
	for _, file := range []string{"marsh-wren", "reed-bunting"} {
		r, doc := layOut(t, "cmd/ribwright/demo/"+file+".toml")
		tables := map[string]export.Table{}
		for _, tab := range shop.Tables(r, doc, shop.BoardOf(r, doc), takeoff.Of(r, doc)) {
			tables[tab.ID] = tab
		}
		for _, key := range []string{"area", "in_joint", "squeeze_out", "cup_loss", "mixed", "part_a_", "part_b_"} {
			c := cells(t, tables["adhesive"], key)
			if math.Abs(c[0].Num+c[1].Num-c[2].Num) > 1e-9 || math.Abs(float64(r.Count)*c[2].Num-c[3].Num) > 1e-6 {
				t.Errorf("%s: %s: %v", file, key, c)
			}
		}
		spots, sides := cells(t, tables["adhesive-joints"], "mixed"), cells(t, tables["adhesive"], "mixed")
		n := len(spots) - 2
		if math.Abs(sum(spots[:n])-sides[2].Num) > 1e-9 || math.Abs(spots[n].Num-sides[0].Num) > 1e-9 || math.Abs(spots[n+1].Num-sides[1].Num) > 1e-9 {
			t.Errorf("%s: the joints take %g, the rib %g", file, sum(spots[:n]), sides[2].Num)
		}
	}
}

// TestSessionTable holds the list of sessions against the plans: every side once, from batches that keep within their session.
func TestSessionTable(t *testing.T) {
	r, doc := layOut(t, "cmd/ribwright/demo/marsh-wren.toml")
	set := rib.One(r, doc)
	batches := batch.Of(set, []takeoff.TakeOff{takeoff.Of(r, doc)})
	tab := shop.Sessions(set, session.Of(set), batches)
	if got := int(sum(cells(t, tab, "sides"))); got != 2*r.Count || len(tab.Rows) != 9 {
		t.Errorf("%d sides in %d sessions, want %d in 9", got, len(tab.Rows), 2*r.Count)
	}
	seen := map[string]bool{}
	for _, c := range cells(t, tab, "batches") {
		for _, n := range strings.Split(c.Text, ", ") {
			if seen[n] {
				t.Errorf("batch %s in two sessions", n)
			}
			seen[n] = true
		}
	}
	if len(seen) != len(batches.Batches) {
		t.Errorf("%d batches in the sessions, want %d", len(seen), len(batches.Batches))
	}
	if tab.Rows[8][1].Text != "25–26" || tab.Rows[8][2].Text != "25–26" || !strings.Contains(strings.Join(tab.Notes, "\n"), "26 ribs, 9 sessions of 3 ribs") {
		t.Errorf("last session %v; notes %v", tab.Rows[8], tab.Notes)
	}
	doc.Session.Time = 0
	if tab := shop.Sessions(set, session.Of(set), batches); len(tab.Rows) != 0 || !strings.Contains(tab.Notes[0], "time under [session]") {
		t.Errorf("no time: %v", tab)
	}
}
