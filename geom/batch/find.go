package batch

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"ribwright/geom/finding"
	"ribwright/geom/ribfile"
)

// Findings tells where the plan breaks a limit of the adhesive, the cups or the scale. All are warnings or notes: the rib
// can be drawn and cut all the same.
func (p Plan) Findings(doc *ribfile.Doc) []finding.Finding {
	var out []finding.Finding
	b := doc.Batch
	if b.HasCureLeast && b.Temperature < b.CureLeast {
		out = append(out, finding.Finding{Severity: finding.Warning, Code: "shop-cold", Key: "batch.temperature", Got: b.Temperature, Limit: b.CureLeast, Unit: "°C",
			Message: fmt.Sprintf("At %s the adhesive does not cure: its maker's lowest temperature is %s.", doc.Units.Temperature(b.Temperature), doc.Units.Temperature(b.CureLeast)),
			Fix:     "Warm the shop, or cure the ribs in a warm box, until they are cured through; then mend temperature under [batch]."})
	}
	out = append(out, assembly(doc, "open_time", b.OpenTime, "open-time", "spread", "closed")...)
	out = append(out, assembly(doc, "closed_time", b.ClosedTime, "closed-time", "closed", "clamped")...)
	return slices.Concat(out, p.cups(doc), p.small(doc), p.coarse(doc))
}

// assembly holds the pace against a time that a joint may wait: what is done first on a side waits longest, up to the whole pace.
func assembly(doc *ribfile.Doc, key string, given float64, code, from, to string) []finding.Finding {
	b := doc.Batch
	allowed := inShop(b, given)
	if given == 0 || b.Pace <= allowed*(1+hair) {
		return nil
	}
	lots := int(math.Ceil(b.Pace/allowed - hair))
	return []finding.Finding{{Severity: finding.Warning, Code: code, Key: "batch." + key, Got: b.Pace, Limit: allowed, Unit: "min",
		Message: fmt.Sprintf("A side takes %s, but a joint may be %s only %s before it is %s, at %s in the shop: the first joint of a side would wait too long.",
			ribfile.Duration(b.Pace), from, ribfile.Duration(math.Floor(allowed)), to, doc.Units.Temperature(b.Temperature)),
		Fix: fmt.Sprintf("Do a side in %d lots, each %s and %s before the next; or work in a cooler shop, or with a helper (pace under [batch]).", lots, from, to)}}
}

// cups tells of a side that one cup does not do.
func (p Plan) cups(doc *ribfile.Doc) []finding.Finding {
	var out []finding.Finding
	told := map[string]bool{}
	for _, k := range p.Batches {
		if k.Cups == 1 {
			continue
		}
		b := doc.Batch
		f := finding.Finding{Severity: finding.Warning, Code: "cup-small", Key: "scale.cup_most", Got: k.NeedG, Limit: p.MostG, Unit: "g",
			Message: fmt.Sprintf("One side of a rib takes %s of adhesive, and a cup %s.", doc.Units.Mass(k.NeedG), doc.Units.Mass(p.MostG)),
			Fix:     fmt.Sprintf("Mix %d cups for it, one after the other, or take a larger cup (cup_most under [scale]).", k.Cups)}
		if p.MostG == 0 || k.NeedG <= p.MostG*(1+hair) {
			life := Life(b, max(k.NeedG, p.LeastG))
			f.Code, f.Key, f.Got, f.Limit, f.Unit = "pot-life-short", "batch.pot_life", life, b.Pace, "min"
			f.Message = fmt.Sprintf("At %s a batch must be used up within %s; one side of a rib takes %s.",
				doc.Units.Temperature(b.Temperature), ribfile.Duration(math.Floor(life)), ribfile.Duration(b.Pace))
			f.Fix = fmt.Sprintf("Mix %d cups for a side, one after the other; work in a cooler shop, or with a helper (pace under [batch]); or take an adhesive with a longer pot life.", k.Cups)
		}
		if !told[f.Code] {
			told[f.Code] = true
			out = append(out, f)
		}
	}
	return out
}

// small tells of batches that are mixed larger than they need be.
func (p Plan) small(doc *ribfile.Doc) []finding.Finding {
	n, over, worst := 0, 0.0, Batch{}
	for _, b := range p.Batches {
		if b.MixG <= b.NeedG*(1+hair) {
			continue
		}
		if n == 0 || b.NeedG < worst.NeedG {
			worst = b
		}
		n, over = n+1, over+b.MixG-b.NeedG
	}
	if n == 0 {
		return nil
	}
	f := finding.Finding{Severity: finding.Note, Code: "batch-small", Key: "scale.cup_least", Got: worst.NeedG, Limit: p.LeastG, Unit: "g",
		Message: fmt.Sprintf("%d of %d batches need less than the least that is mixed, %s (batch %d: %s). They are mixed larger, and %s is left over in all.",
			n, len(p.Batches), doc.Units.Mass(p.LeastG), worst.Number, doc.Units.Mass(worst.NeedG), doc.Units.Mass(over)),
		Fix: "Let a batch do more sides: work faster (pace under [batch]) or in a cooler shop. Or use what is left over for sample joints."}
	return []finding.Finding{f}
}

// coarse tells of batches whose ratio the scale may put off too far, where the builder says what scale it is.
func (p Plan) coarse(doc *ribfile.Doc) []finding.Finding {
	n, worst := 0, Batch{}
	for _, b := range p.Batches {
		if b.Card.Within {
			continue
		}
		if n == 0 || b.Card.Error.Worst() > worst.Card.Error.Worst() {
			worst = b
		}
		n++
	}
	if n == 0 || !doc.Scale.StepGiven {
		return nil
	}
	// Twice the ratio and more is no figure to go by.
	off, words := 100*worst.Card.Error.Worst(), "to twice what it should be or more"
	if off < 100 {
		words = "by " + beyond(off, 100*p.Scale.Tolerance) + " %"
	}
	which := fmt.Sprintf("%d of %d batches are so small that the scale's step may put their ratio off too far: most in batch %d", n, len(p.Batches), worst.Number)
	if n == 1 {
		which = fmt.Sprintf("Batch %d is so small that the scale's step may put its ratio off too far", worst.Number)
	}
	f := finding.Finding{Severity: finding.Warning, Code: "batch-coarse", Key: "scale.step", Got: min(off, 100), Limit: 100 * p.Scale.Tolerance, Unit: "%",
		Message: fmt.Sprintf("%s, %s, %s, where %.3g %% are allowed.", which, doc.Units.Mass(worst.CupG()), words, 100*p.Scale.Tolerance),
		Fix:     "Weigh on a finer scale (step under [scale])."}
	if least, _, ok := p.Scale.Smallest(p.Ratio); ok && (p.MostG == 0 || least <= p.MostG) {
		f.Fix = fmt.Sprintf("Weigh on a finer scale (step under [scale]); or mix %s in a cup at least (cup_least under [scale]), and use what is left over for sample joints.",
			doc.Units.Mass(least))
	}
	return []finding.Finding{f}
}

// beyond writes a figure that is over a limit, with as many places as show that it is: 2.0 over 2 would puzzle people.
func beyond(v, limit float64) string {
	for places := 1; places < 4; places++ {
		if s := strconv.FormatFloat(v, 'f', places, 64); s != strconv.FormatFloat(limit, 'f', places, 64) {
			return s
		}
	}
	return strconv.FormatFloat(v, 'f', 4, 64)
}
