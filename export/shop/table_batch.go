package shop

import (
	"fmt"
	"math"
	"slices"

	"ribwright/export"
	"ribwright/geom/batch"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
	"ribwright/geom/takeoff"
)

// Batches is the batches of adhesive in order of work: which sides each does, what to weigh, and when it is used up.
func Batches(set rib.Set, p batch.Plan) export.Table {
	doc := set.Shared()
	w := lister{doc: doc, inch: doc.Units == ribfile.Inch}
	scale := Weighing{Scale: p.Scale, Shows: doc.Scale.Shows}
	read := func(g float64) export.Cell {
		if scale.Shows == ribfile.Inch {
			return export.Num(g/ribfile.GramsPerOunce, scale.Reading(g))
		}
		return export.Num(g, scale.Reading(g))
	}
	unit := "g"
	if scale.Shows == ribfile.Inch {
		unit = "oz"
	}
	t := export.Table{ID: "batches", Title: "Batches of adhesive",
		Columns: []export.Column{number("batch", "batch", ""), number("side", "side", ""), text("ribs", "ribs"), number("sides", "sides", ""), w.massColumn("need", "needed"),
			number("cups", "cups", ""), number("reading_a_"+unit, "pour A until the scale reads", ""), number("reading_total_"+unit, "then B until it reads", ""),
			number("ratio_off_percent", "ratio off at most", "%"), number("use_within_min", "use up within", ""), number("work_min", "the work takes", "")},
		Notes: append(rightRibs(set), batchNotes(doc, p)...)}
	for _, b := range p.Batches {
		off, life := export.Str("-"), export.Str("not given")
		if e := b.Card.Error.Worst(); !math.IsInf(e, 1) {
			off = export.Num(100*e, fmt.Sprintf("%.1f", 100*e))
		}
		if !math.IsInf(b.LifeMin, 1) { // rounded down: nobody shall be late by it
			life = export.Num(b.LifeMin, ribfile.Duration(math.Floor(b.LifeMin)))
		}
		side := count(b.Sides[0].Face + 1)
		if b.Mixed() {
			side = export.Str("1, 2")
		}
		t.Rows = append(t.Rows, []export.Cell{count(b.Number), side, export.Str(b.Names(set)), count(len(b.Sides)), w.mass1(b.NeedG),
			count(b.Cups), read(b.Card.AG), read(b.Card.TotalG), off, life, export.Num(b.WorkMin, ribfile.Duration(b.WorkMin))})
	}
	return t
}

// rightRibs says which numbers right ribs have, where any are glued otherwise than left ones. A wing has as many of either.
func rightRibs(set rib.Set) []string {
	if !slices.ContainsFunc(set, func(e rib.Entry) bool { return e.Rib.Mirrored > 0 }) {
		return nil
	}
	return []string{"Where plates or a web lie on one face, the left ribs of a kind are built first: the second half of its numbers are right ribs."}
}

// batchNotes say by what the batches were planned.
func batchNotes(doc *ribfile.Doc, p batch.Plan) []string {
	b, u := doc.Batch, doc.Units
	out := []string{
		"Side 1 is glued in the jig, side 2 when the rib is out of it; the ribs are numbered as they are built.",
		"Tare the scale with the empty cup. Of several cups each is weighed so, the next when the one before it is used up. A sample joint of each is counted.",
	}
	if b.PotLife > 0 {
		out = append(out, fmt.Sprintf("Pot life as the rib file has it: %s at %s for %s. In a shop of %s, at %g °C (%g °F) for twice the rate, that is %s; above %s it falls with the mass to the power of %g (common practice, no source: try a cup).",
			ribfile.Duration(b.PotLife), u.Temperature(b.PotLifeAt), u.Mass(b.PotLifeMassG), u.Temperature(b.Temperature), b.RateDoubles, 1.8*b.RateDoubles,
			ribfile.Duration(math.Floor(batch.Life(b, b.PotLifeMassG))), u.Mass(b.PotLifeMassG), b.MassPower))
	} else {
		out = append(out, fmt.Sprintf("No pot life is given (pot_life under [batch]), so no batch does more than %d sides: common practice. Use it up within its maker's pot life.", batch.WithoutLife))
	}
	out = append(out, fmt.Sprintf("A side takes %s (pace under [batch]).", ribfile.Duration(b.Pace)))
	if coarse := slices.ContainsFunc(p.Batches, func(k batch.Batch) bool { return !k.Card.Within }); coarse {
		w := Weighing{Ratio: p.Ratio, Scale: p.Scale, Shows: doc.Scale.Shows}
		out = append(out, fmt.Sprintf("Where the ratio may be off by more than %s, the batch is too small for the scale's step of %s. %s",
			inPercent(p.Scale.Tolerance), w.Reading(p.Scale.StepG), w.smallestWords(false)))
	}
	if p.MostG > 0 {
		out = append(out, fmt.Sprintf("A cup takes %s at most.", u.Mass(p.MostG)))
	}
	return append(out, glueCautions...)
}

// AdhesiveToBuy returns the two parts that the batches take, by weight and volume.
func AdhesiveToBuy(doc *ribfile.Doc, p batch.Plan) []BuyRow {
	w := lister{doc: doc, inch: doc.Units == ribfile.Inch}
	all := 0.0
	for _, k := range p.Batches {
		all += float64(float64(k.Cups) * k.Card.TotalG)
	}
	if all == 0 {
		return nil
	}
	a, b := p.Ratio.Split(all)
	va, vb := takeoff.Volumes(doc.Adhesive, a, b)
	row := func(part string, g, ml float64) BuyRow {
		size := bench(g) + " g, " + bench(ml) + " ml"
		if w.inch {
			size = fmt.Sprintf("%s oz, %s fl oz", bench(g/ribfile.GramsPerOunce), bench(ml/mlPerFluidOunce))
		}
		return BuyRow{What: "adhesive, part " + part, Size: size, Count: 1}
	}
	return []BuyRow{row("A", a, va), row("B", b, vb)}
}
