package main

import (
	"encoding/json"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"github.com/spf13/pflag"

	"ribwright/export"
	"ribwright/export/shop"
	"ribwright/geom/finding"
	"ribwright/geom/mix"
	"ribwright/geom/ribfile"
)

// mixFlags are the flags of the command mix.
type mixFlags struct {
	ratio, by, densities, target, step, poured, tolerance, card string
	batch                                                       int
}

func (m *mixFlags) add(f *pflag.FlagSet) {
	const file = " (default: as the rib file says"
	f.StringVar(&m.ratio, "ratio", "", "part A to part B, such as 1:1 or 100:43"+file+")")
	f.StringVar(&m.by, "by", "", "what the ratio counts: weight or volume"+file+", else weight)")
	f.StringVar(&m.densities, "densities", "", "of A and B in g/cm³, where the ratio is by volume: 1.15,1.00"+file+")")
	f.StringVar(&m.target, "target", "", "how much to mix, such as 0.9oz or 25g (default: a batch of the rib file)")
	f.IntVar(&m.batch, "batch", 1, "which of the rib file's batches, as list --table batches numbers them")
	f.StringVar(&m.step, "step", "", "step of the scale's readings"+file+", else 0.1 g, or 0.01 oz where the target is in ounces)")
	f.StringVar(&m.tolerance, "tolerance", "", "how far the ratio may be off, such as 2%"+file+", else 2%: common practice)")
	f.StringVar(&m.poured, "poured", "", "what was poured of A and of B, such as 0.48,0.55: says what to add")
	f.StringVar(&m.card, "card", "", "draw the scale card to this file: .pdf (on the rib file's paper), .svg or .png")
}

// mix says how to weigh a batch of adhesive, or what to add to one that was poured wrong.
func (a *app) mix(args []string, o *options) error {
	m := &o.mix
	format, err := pictureFormat(m.card, "pdf", "svg", "png")
	if err != nil {
		return err
	}
	if err := a.checkPaper(o); err != nil {
		return err
	}
	doc, input := (*ribfile.Doc)(nil), ""
	w := shop.Weighing{By: "weight", Shows: m.unit(), Scale: mix.Scale{StepG: 0.1, Tolerance: 0.02}}
	if w.Shows == ribfile.Inch {
		w.Scale.StepG = w.Shows.Grams(0.01)
	}
	if len(args) > 0 {
		input = args[0]
		if doc, err = a.planned(input, m.batch, &w); err != nil {
			return err
		}
	}
	if err := m.set(&w, doc); err != nil {
		return err
	}
	pour, err := m.pour(w)
	switch {
	case err != nil:
		return err
	case w.TargetG == 0 && (pour == nil || m.card != ""):
		return usage("say how much to mix, such as --target 0.9oz, or name a rib file: mix FILE")
	}
	if m.card != "" {
		d := shop.ScaleCard(w, ribfile.Paper{})
		if format == "pdf" {
			if d, err = cards(w, doc, o); err != nil {
				return err
			}
		}
		if doc != nil {
			d = shop.Dressed(d, doc)
		}
		if err := a.writeOne(m.card, input, drawing(d, format, ribfile.MM)); err != nil {
			return err
		}
	}
	if o.json {
		return a.writeOne("-", "", func(out io.Writer) error { return weighJSON(out, w, pour) })
	}
	words := w.Words
	if pour != nil {
		words = func() []string { return w.MendWords(pour[0], pour[1]) }
	}
	_, err = io.WriteString(a.out, strings.Join(words(), "\n")+"\n")
	return err
}

// cards returns the scale cards on a page of paper, laid out as large as the correction for the printer wants it.
func cards(w shop.Weighing, doc *ribfile.Doc, o *options) (export.Drawing, error) {
	paper, err := o.paperOf(doc)
	if err != nil {
		return export.Drawing{}, err
	}
	x, y := paper.Printed.Correction()
	m := paper.Margin
	paper.W, paper.H = paper.W/x, paper.H/y
	paper.Margin = ribfile.Margins{Left: m.Left / x, Right: m.Right / x, Top: m.Top / y, Bottom: m.Bottom / y}
	units := w.Shows
	if doc != nil {
		units = doc.Units
	}
	return shop.Corrected(shop.ScaleCard(w, paper), paper.Printed, units), nil
}

// planned takes over what the rib file says of the adhesive and the scale. Of its findings only errors are told: who
// stands at the scale has no hand free for the rest. n is the number of the batch.
func (a *app) planned(name string, n int, w *shop.Weighing) (*ribfile.Doc, error) {
	j, err := a.load(name)
	if err != nil {
		return nil, err
	}
	if finding.HasError(j.found) {
		return nil, a.tell(j.found)
	}
	g, s := j.doc.Adhesive, j.doc.Scale
	w.Title = j.doc.Title
	w.RatioA, w.RatioB, w.By = g.RatioA, g.RatioB, g.By
	w.Scale, w.Shows = mix.Scale{StepG: s.Step, Tolerance: s.RatioTolerance}, s.Shows
	w.CupLeastG, w.CupMostG = s.CupLeast, s.CupMost
	w.TargetG, w.For, err = j.cup(n)
	return j.doc, err
}

// unit is what the scale shows where no rib file says it: what the first mass on the command line is written in.
func (m *mixFlags) unit() ribfile.Units {
	first, _, _ := strings.Cut(m.poured, ",")
	for _, s := range []string{m.step, m.target, first} {
		if u := ribfile.MassIn(s, ""); u != "" {
			return u
		}
	}
	return ribfile.MM
}

// set takes over what the flags say instead of the rib file, which may be nil.
func (m *mixFlags) set(w *shop.Weighing, doc *ribfile.Doc) (err error) {
	if m.step != "" {
		w.Shows = ribfile.MassIn(m.step, w.Shows)
		if w.Scale.StepG, err = m.mass("step", m.step, w.Shows, 0.001, 100); err != nil {
			return err
		}
	}
	if m.target != "" {
		if w.TargetG, err = m.mass("target", m.target, w.Shows, w.Scale.StepG, 1e5); err != nil {
			return err
		}
		w.For = ""
	}
	if m.tolerance != "" {
		if w.Scale.Tolerance, err = parseTolerance(m.tolerance); err != nil {
			return err
		}
	}
	if m.by != "" && m.by != "weight" && m.by != "volume" {
		return usage("--by %s: choose weight or volume", m.by)
	}
	if m.by != "" {
		w.By = m.by
	}
	switch {
	case m.ratio != "":
		if w.RatioA, w.RatioB, err = parsePair("ratio", m.ratio, ":", "1:1 or 100:43", 0.001, 1000); err != nil {
			return err
		}
	case doc == nil:
		return usage("say the adhesive's ratio, such as --ratio 1:1 (the maker gives it, by weight or by volume), or name a rib file: mix FILE")
	}
	w.Ratio = mix.Ratio{A: w.RatioA, B: w.RatioB}
	if w.By != "volume" {
		if m.densities != "" {
			return usage("--densities count only where the ratio is by volume: add --by volume, or leave them out")
		}
		return nil
	}
	var a, b float64
	if doc != nil {
		a, b = doc.Adhesive.DensityA, doc.Adhesive.DensityB
	}
	if m.densities != "" {
		if a, b, err = parsePair("densities", m.densities, ",", "1.15,1.00", 0.5, 3); err != nil {
			return err
		}
	}
	if a == 0 || b == 0 {
		return usage("a ratio by volume needs the densities of A and B in g/cm³ (the maker gives them): --densities 1.15,1.00")
	}
	w.Ratio = mix.ByVolume(w.RatioA, w.RatioB, a, b)
	return nil
}

// pour reads what was poured of each part, in grams; nil where nothing was.
func (m *mixFlags) pour(w shop.Weighing) (*[2]float64, error) {
	if m.poured == "" {
		return nil, nil
	}
	parts := strings.Split(m.poured, ",")
	if len(parts) != 2 {
		return nil, usage("--poured %s: write what was poured of A and of B with a comma between, and a point in the figures: 0.48,0.55. B is what the scale reads now, less what it read after A", m.poured)
	}
	var out [2]float64
	for i, s := range parts {
		g, err := m.mass("poured", s, w.Shows, 0, 1e5)
		if err != nil {
			return nil, err
		}
		if !w.Scale.IsReading(g) {
			return nil, usage("--poured %s: %s is no reading of a scale that shows steps of %s; write what it showed, or say its step with --step",
				m.poured, strings.TrimSpace(s), w.Reading(w.Scale.StepG))
		}
		out[i] = g
	}
	if out[0]+out[1] <= 0 {
		return nil, usage("--poured %s: nothing was poured yet; leave --poured out for the card", m.poured)
	}
	return &out, nil
}

// mass reads a mass of a flag, in grams; bare numbers are in what the scale shows.
func (m *mixFlags) mass(flag, s string, shows ribfile.Units, least, most float64) (float64, error) {
	g, hasUnit, err := ribfile.ParseMass(s)
	if err != nil {
		return 0, usage("--%s: %v", flag, err)
	}
	if !hasUnit {
		g = shows.Grams(g)
	}
	if g < least*(1-1e-9) || g > most {
		fine := func(g float64) string {
			if shows == ribfile.Inch {
				return strconv.FormatFloat(g/ribfile.GramsPerOunce, 'g', 3, 64) + " oz"
			}
			return strconv.FormatFloat(g, 'f', -1, 64) + " g"
		}
		return 0, usage("--%s %s: it must be from %s to %s; mind the unit", flag, s, fine(least), fine(most))
	}
	return g, nil
}

// parsePair reads two numbers with a sign between.
func parsePair(flag, s, between, example string, least, most float64) (a, b float64, err error) {
	first, second, ok := strings.Cut(s, between)
	a, err1 := strconv.ParseFloat(strings.TrimSpace(first), 64)
	b, err2 := strconv.ParseFloat(strings.TrimSpace(second), 64)
	if !ok || err1 != nil || err2 != nil || !(a >= least && a <= most && b >= least && b <= most) {
		return 0, 0, usage("--%s %s: write two numbers from %g to %g, of A and of B, such as %s", flag, s, least, most, example)
	}
	return a, b, nil
}

// parseTolerance reads a share, or a percentage.
func parseTolerance(s string) (float64, error) {
	body, isPercent := strings.CutSuffix(strings.TrimSpace(s), "%")
	t, err := strconv.ParseFloat(strings.TrimSpace(body), 64)
	if isPercent {
		t /= 100
	}
	if err != nil || !(t >= 0.001 && t <= 0.2) {
		return 0, usage("--tolerance %s: write a percentage from 0.1%% to 20%%, such as 2%%", s)
	}
	return t, nil
}

// weighJSON writes a card or a correction for programs, masses in grams.
func weighJSON(out io.Writer, w shop.Weighing, pour *[2]float64) error {
	type addition struct {
		Part  string  `json:"part"`
		AddG  float64 `json:"add_g"`
		ReadG float64 `json:"reading_g"`
	}
	type report struct {
		RatioByWeight [2]float64 `json:"ratio_by_weight"`
		StepG         float64    `json:"step_g"`
		Tolerance     float64    `json:"tolerance"`
		TargetG       float64    `json:"target_g,omitempty"`
		Cups          int        `json:"cups,omitempty"`
		SmallestG     float64    `json:"smallest_g,omitempty"`
		PouredG       []float64  `json:"poured_g,omitempty"`
		Add           []addition `json:"add,omitempty"`
		AG            float64    `json:"a_g"`
		BG            float64    `json:"b_g"`
		TotalG        float64    `json:"total_g"`
		ErrorLow      *float64   `json:"error_low"`
		ErrorHigh     *float64   `json:"error_high"`
		Within        bool       `json:"within_tolerance"`
	}
	fine := func(v float64) float64 { return math.Round(v*1e6)/1e6 + 0 }
	known := func(v float64) *float64 {
		if math.IsInf(v, 0) {
			return nil
		}
		v = fine(v)
		return &v
	}
	r := report{RatioByWeight: [2]float64{fine(w.Ratio.A), fine(w.Ratio.B)}, StepG: fine(w.Scale.StepG), Tolerance: w.Scale.Tolerance, TargetG: fine(w.TargetG)}
	if least, _, ok := w.Scale.Smallest(w.Ratio); ok {
		r.SmallestG = fine(least)
	}
	if pour == nil {
		c := w.Card()
		r.Cups, r.AG, r.BG, r.TotalG = w.Cups(), fine(c.AG), fine(c.BG), fine(c.TotalG)
		r.ErrorLow, r.ErrorHigh, r.Within = known(c.Error.Low), known(c.Error.High), c.Within
	} else {
		c := w.Scale.Correct(w.Ratio, pour[0], pour[1])
		r.PouredG, r.AG, r.BG, r.TotalG = []float64{fine(pour[0]), fine(pour[1])}, fine(c.AG), fine(c.BG), fine(c.TotalG)
		r.ErrorLow, r.ErrorHigh, r.Within = known(c.Error.Low), known(c.Error.High), c.Within
		for _, add := range c.Add {
			r.Add = append(r.Add, addition{add.Part, fine(add.AddG), fine(add.ReadG)})
		}
	}
	data, err := json.MarshalIndent(r, "", "  ")
	if err != nil {
		return fmt.Errorf("the batch cannot be written: %w", err)
	}
	_, err = out.Write(append(data, '\n'))
	return err
}
