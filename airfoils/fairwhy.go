package airfoils

import (
	"math"
	"strconv"

	"ribwright/geom"
)

// figures says how a table's ordinates are written.
type figures struct {
	scale    float64 // the table's figure for a whole chord: 100 for percent
	step     float64 // the least step between two figures, percent of the chord
	decimals int     // places after the point
	binary   bool    // lengths in fractions
}

// figures finds the coarsest step on which the table's ordinates lie, but for one in ten: a wrong figure
// may lie between. Tables in lengths may be in fractions down to 1/64.
func (s Section) figures() figures {
	f := figures{scale: s.Chord}
	if !(f.scale > 0) {
		f.scale = s.inUnit
	}
	lengths := f.scale > 0
	if !lengths {
		f.scale = 100
	}
	var vs []float64
	for _, side := range [][]geom.Pt{s.Upper, s.Lower} {
		for _, p := range side {
			vs = append(vs, p.Y*f.scale)
		}
	}
	steps := []struct {
		step     float64
		decimals int
	}{{0.5, 1}, {0.1, 1}, {0.05, 2}, {0.01, 2}, {0.005, 3}, {0.001, 3}, {5e-4, 4}, {1e-4, 4}, {1e-5, 5}, {1e-6, 6}}
	step := steps[len(steps)-1].step
	f.decimals = steps[len(steps)-1].decimals
	for _, try := range steps {
		if onGrid(vs, try.step) {
			step, f.decimals = try.step, try.decimals
			break
		}
	}
	for _, n := range []float64{8, 16, 32, 64} {
		if lengths && 1/n > step && onGrid(vs, 1/n) {
			step, f.binary = 1/n, true
			break
		}
	}
	f.step = 100 * step / f.scale
	return f
}

// onGrid reports whether nine of ten values are whole numbers of steps.
func onGrid(vs []float64, step float64) bool {
	off := 0
	for _, v := range vs {
		q := v / step
		if math.Abs(q-math.Round(q)) > 1e-5 {
			off++
		}
	}
	return off <= len(vs)/10
}

// explain completes a suspect: its cause, where one leads to the curve, and the likely ordinate. sd is the
// curve's standard deviation, percent.
func (f figures) explain(s Suspect, sd float64) Suspect {
	want := s.Found - s.Residual
	// A cause must take away nine tenths of the residual, or as much of it as can be known.
	near := math.Max(math.Abs(s.Residual)/10, math.Min(math.Abs(s.Residual)/3, 2*sd/100))
	best := near
	for _, c := range f.causes(s.Found * f.scale) {
		if d := math.Abs(c.v/f.scale - want); d < best && math.Abs(c.v/f.scale) < 1 {
			best, s.Cause, s.Likely = d, c.cause, c.v/f.scale
		}
	}
	if s.Cause == NoCause {
		step := f.step / 100
		s.Likely = float64(math.Round(want/step)*step) + 0
	}
	return s
}

type cause struct {
	v     float64
	cause Cause
}

// causes lists the figures that may have been meant by v.
func (f figures) causes(v float64) []cause {
	out := []cause{{-v, WrongSign}}
	if f.binary {
		for _, n := range []float64{16, 32} {
			out = append(out, cause{v - 1/n, NeighbourFraction}, cause{v + 1/n, NeighbourFraction})
		}
		return out
	}
	for _, k := range []float64{10, 0.1, 100, 0.01} {
		out = append(out, cause{v * k, DecimalPoint})
	}
	text := []byte(strconv.FormatFloat(math.Abs(v), 'f', f.decimals, 64))
	for i := range text {
		k := i + 1
		if k < len(text) && text[k] == '.' {
			k++
		}
		if text[i] == '.' || k >= len(text) || text[i] == text[k] {
			continue
		}
		text[i], text[k] = text[k], text[i]
		w, err := strconv.ParseFloat(string(text), 64)
		text[i], text[k] = text[k], text[i]
		if err == nil {
			out = append(out, cause{math.Copysign(w, v), DigitSwap})
		}
	}
	return out
}
