package shop

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"ribwright/export"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
	"ribwright/geom/riblog"
	"ribwright/geom/takeoff"
)

// LogPlan returns what a log is held against: the ribs of a set, what each kind weighs, and the adhesive to mix for its
// sides. takes are the set's quantities, in its order.
func LogPlan(set rib.Set, takes []takeoff.TakeOff) riblog.Plan {
	var p riblog.Plan
	for i, e := range set {
		t := takes[i]
		p.Kinds = append(p.Kinds, riblog.Kind{Name: e.Name, Also: e.Also, Count: e.Rib.Count, MassG: t.Mass.TotalG, SidesG: [2]float64{t.Sides[0].MixedG, t.Sides[1].MixedG}})
		if i == 0 {
			one := takeoff.Spread(e.Doc.Adhesive, 1e6, 0) // of any area: the parts are by weight then
			p.RatioA, p.RatioB, p.RatioTolerance = one.PartAG, one.PartBG, e.Doc.Scale.RatioTolerance
			p.CouponG, p.CouponN, p.WoodPct = t.Coupon.Adhesive.MixedG, t.Coupon.LoadN, 100*t.Coupon.WoodFailure
		}
	}
	return p
}

// LogTables returns what a log tells: how far the ribs are, the adhesive against the plan, the batches with their
// sample joints, the masses, and every rib.
func LogTables(s riblog.Summary, doc *ribfile.Doc) []export.Table {
	w := logLister{lister{doc: doc, inch: doc.Units == ribfile.Inch}, s}
	return []export.Table{w.progress(), w.adhesive(), w.batches(), w.masses(), w.ribs()}
}

// logLister makes the tables of a log.
type logLister struct {
	lister
	s riblog.Summary
}

// kind names a kind of rib, where there are several.
func (w logLister) kind(i int) export.Cell {
	switch {
	case i < 0:
		return export.Str("not planned")
	case len(w.s.Plan.Kinds) == 1:
		return export.Str("rib")
	}
	return export.Str(w.s.Plan.Kinds[i].Name)
}

func (w logLister) progress() export.Table {
	t := export.Table{ID: "log-progress", Title: "How far the ribs are",
		Columns: []export.Column{text("kind", "kind"), number("planned", "planned", ""), number("first_side", "first side glued", ""), number("both_sides", "both sides glued", ""),
			number("weighed", "weighed", ""), number("weighed_percent", "weighed", "%")},
		Notes: []string{"A side counts as glued when its batch is in the log, or when the rib is weighed."}}
	var sum [4]int
	row := func(name export.Cell, n [4]int) {
		share := 0.0
		if n[0] > 0 {
			share = float64(n[3]) / float64(n[0])
		}
		t.Rows = append(t.Rows, []export.Cell{name, count(n[0]), count(n[1]), count(n[2]), count(n[3]), percent(share, 0)})
	}
	for i, k := range w.s.Plan.Kinds {
		first, second, weighed := w.s.Glued(i)
		if k.SidesG[1] == 0 { // plates on one face
			second = first
		}
		n := [4]int{k.Count, first, second, weighed}
		for j := range n {
			sum[j] += n[j]
		}
		row(w.kind(i), n)
	}
	if len(w.s.Plan.Kinds) > 1 {
		row(export.Str("all"), sum)
	}
	return t
}

func (w logLister) adhesive() export.Table {
	u := w.s.Adhesive()
	t := export.Table{ID: "log-adhesive", Title: "Adhesive used, against the plan",
		Columns: []export.Column{text("what", "what"), w.massColumn("weighed", "weighed"), w.massColumn("plan", "by the plan"), w.massColumn("over", "over the plan"), number("over_percent", "over the plan", "%")}}
	p := w.s.Plan
	a := u.PlanG * p.RatioA / (p.RatioA + p.RatioB)
	for _, r := range []struct {
		name          string
		weighed, plan float64
	}{{"part A", u.AG, a}, {"part B", u.BG, u.PlanG - a}, {"both", u.AG + u.BG, u.PlanG}} {
		over := export.Str("-")
		if r.plan > 0 {
			over = percent(r.weighed/r.plan-1, 0)
		}
		t.Rows = append(t.Rows, []export.Cell{export.Str(r.name), w.mass1(r.weighed), w.mass1(r.plan), w.mass1(r.weighed - r.plan + 0), over})
	}
	t.Notes = append(t.Notes, fmt.Sprintf("By the plan: for the %d %s of which the log names the batch, and for %d %s.", u.Sides, plural(u.Sides, "side", "sides"), len(w.s.Batches), plural(len(w.s.Batches), "sample joint", "sample joints")))
	if u.Unweighed > 0 {
		t.Notes = append(t.Notes, fmt.Sprintf("Of %d %s a part is not in the log: more was used than stands here.", u.Unweighed, plural(u.Unweighed, "batch", "batches")))
	}
	still := "Still to mix for the sides that are not glued: " + w.doc.Units.Mass(u.RemainderG) + " by the plan, of " + w.doc.Units.Mass(u.WholeG) + " for all ribs"
	if u.PlanG > 0 && u.Unweighed == 0 && u.RemainderG > 0 {
		still += "; " + w.doc.Units.Mass(u.RemainderG*(u.AG+u.BG)/u.PlanG) + " if it goes on as so far"
	}
	t.Notes = append(t.Notes, still+".")
	return t
}

// plural chooses between one and many.
func plural(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}

// value is a figure that may be missing.
func value(v riblog.Value, cell func(float64) export.Cell) export.Cell {
	if !v.OK {
		return export.Str("-")
	}
	return cell(v.V)
}

func figure(v float64) export.Cell {
	return export.Num(v, strconv.FormatFloat(math.Round(v*10)/10+0, 'f', -1, 64))
}

func (w logLister) batches() export.Table {
	temperature, key := "°C", "temperature_c"
	if w.inch {
		temperature, key = "°F", "temperature_f"
	}
	t := export.Table{ID: "log-batches", Title: "Batches of adhesive, and their sample joints",
		Columns: []export.Column{text("batch", "batch"), number("line", "line", ""), number("sides", "sides glued", ""), w.massColumn("a", "part A"), w.massColumn("b", "part B"),
			number("ratio_off_percent", "A over B is off by", "%"), number(key, "temperature", temperature), number("humidity_percent", "humidity", "%"),
			number("coupon_load_n", "sample joint broke at", ""), number("wood_failure_percent", "in the wood", "%"), text("state", "sample joint")},
		Notes: []string{fmt.Sprintf("A over B may be off by %s %% (ratio_tolerance under [scale]; the maker's figure counts).", decimal(100*w.s.Plan.RatioTolerance, 1)),
			fmt.Sprintf("A sample joint must fail in the wood on at least %s %% of its face, and should carry %s.", decimal(w.s.Plan.WoodPct, 0), w.doc.Units.Force(w.s.Plan.CouponN)),
			"Line: where the log first names the batch."}}
	without := 0
	for _, b := range w.s.Batches {
		off := export.Str("-")
		if b.AG.OK && b.BG.OK && !math.IsInf(b.RatioOff, 0) {
			off = percent(b.RatioOff, 1)
		}
		state := "passed"
		switch {
		case b.Failed:
			state = "FAILED"
		case !b.Broken:
			without++
			state = "none yet"
		case b.CouponN.OK && b.CouponN.V < w.s.Plan.CouponN:
			state = "passed, below the load"
		}
		t.Rows = append(t.Rows, []export.Cell{export.Str(b.Name), count(b.Line), count(b.Sides), value(b.AG, w.mass1), value(b.BG, w.mass1), off,
			value(b.TemperatureC, func(c float64) export.Cell {
				if w.inch {
					return figure(float64(c*1.8) + 32)
				}
				return figure(c)
			}), value(b.HumidityPct, figure), value(b.CouponN, func(n float64) export.Cell { return export.Num(n, w.doc.Units.Force(n)) }), value(b.WoodPct, figure), export.Str(state)})
	}
	if without > 0 {
		t.Notes = append([]string{fmt.Sprintf("%d of %d %s %s no sample joint yet.", without, len(w.s.Batches), plural(len(w.s.Batches), "batch", "batches"), plural(without, "has", "have"))}, t.Notes...)
	}
	return t
}

func (w logLister) masses() export.Table {
	t := export.Table{ID: "log-masses", Title: "Masses of the ribs",
		Columns: []export.Column{text("kind", "kind"), text("of", "of"), number("count", "weighed", ""), w.massColumn("computed", "computed"), w.massColumn("mean", "mean"), number("off_percent", "mean over computed", "%"),
			w.massColumn("sd", "standard deviation"), number("sd_percent", "of the mean", "%"), w.massColumn("median", "median"), w.massColumn("least", "lightest"), w.massColumn("most", "heaviest")},
		Notes: []string{fmt.Sprintf("A rib stands out if its modified z-score is over %g (Iglewicz and Hoaglin, 1993; it goes by the median, which a wrong rib hardly moves) and it is more than %g %% off the median. With fewer than %d ribs none is called so.",
			riblog.OddScore, 100*riblog.LeastOff, riblog.LeastOdd),
			"Computed: wood at its handbook density; a mean that is off tells of your wood, a rib that stands out of a mistake: look at it before it is varnished."}}
	for i := range w.s.Plan.Kinds {
		all, plain := w.s.All[i], w.s.Masses[i]
		if all.N == 0 {
			continue
		}
		row := func(of string, s riblog.Spread) {
			computed := w.s.Plan.Kinds[i].MassG
			off, share := export.Str("-"), export.Str("-")
			if computed > 0 {
				off = percent(s.Mean/computed-1, 1)
			}
			if s.Mean > 0 {
				share = percent(s.SD/s.Mean, 1)
			}
			t.Rows = append(t.Rows, []export.Cell{w.kind(i), export.Str(of), count(s.N), w.mass1(computed), w.mass1(s.Mean), off, w.mass1(s.SD), share, w.mass1(s.Median), w.mass1(s.Least), w.mass1(s.Most)})
		}
		row("all", all)
		if plain.N < all.N {
			row("without those that stand out", plain)
		}
	}
	return t
}

func (w logLister) ribs() export.Table {
	t := export.Table{ID: "log-ribs", Title: "The ribs",
		Columns: []export.Column{text("rib", "rib"), text("kind", "kind"), number("line", "line", ""), text("first_batch", "first side, batch"), text("second_batch", "second side, batch"),
			w.massColumn("mass", "mass"), number("off_percent", "over computed", "%"), number("score", "modified z-score", ""), text("remark", "remark")}}
	for _, r := range w.s.Ribs {
		off, score, remark := export.Str("-"), export.Str("-"), ""
		if r.MassG.OK && r.Kind >= 0 && w.s.Plan.Kinds[r.Kind].MassG > 0 {
			off, score = percent(r.MassG.V/w.s.Plan.Kinds[r.Kind].MassG-1, 1), export.Num(r.Score, decimal(r.Score, 1))
		}
		if r.Odd {
			remark = "stands out: " + map[bool]string{true: "heavy", false: "light"}[r.Score > 0]
		}
		t.Rows = append(t.Rows, []export.Cell{export.Str(r.Name), w.kind(r.Kind), count(r.Line), export.Str(dash(r.Batch[0].Name)), export.Str(dash(r.Batch[1].Name)), value(r.MassG, w.mass1), off, score, export.Str(remark)})
	}
	return t
}

func dash(s string) string {
	if strings.TrimSpace(s) == "" {
		return "-"
	}
	return s
}
