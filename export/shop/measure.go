package shop

import (
	"fmt"
	"math"
	"strings"

	"ribwright/airfoils"
	"ribwright/export"
	"ribwright/geom/ribfile"
)

// Measured is a rib or a print laid beside its contour, with what the builder lets pass.
type Measured struct {
	airfoils.Comparison
	Title     string
	Units     ribfile.Units
	Chord     float64 // mm
	Tolerance float64 // mm
}

// Over returns how many readings stand off the contour by more than the tolerance: with nothing fitted, and after the fit.
func (m Measured) Over() (raw, fitted int) {
	for _, d := range m.Deviations {
		if m.over(d.Raw) {
			raw++
		}
		if m.over(d.Fitted) {
			fitted++
		}
	}
	return raw, fitted
}

// over leaves a micrometre to the reckoning: what is just the tolerance passes.
func (m Measured) over(mm float64) bool { return math.Abs(mm) > m.Tolerance+1e-3 }

// Table returns the deviations, one row a reading.
func (m Measured) Table() export.Table {
	w := lister{doc: &ribfile.Doc{Units: m.Units}, inch: m.Units == ribfile.Inch}
	t := export.Table{ID: "deviations", Title: "Deviations from the contour",
		Columns: []export.Column{number("line", "line", ""), text("of", "of"), w.lengthColumn("station", "station"), w.lengthColumn("measured", "measured"),
			w.lengthColumn("contour", "contour"), w.lengthColumn("deviation", "deviation"), w.lengthColumn("fitted", "after the fit"), text("remark", "remark")},
		Notes: append(m.Words(), "Deviations stand square to the contour, those of a depth along it; + is proud of the contour, − is short of it. Line: in the file of measurements.")}
	for _, d := range m.Deviations {
		nominal := export.Str("-")
		if d.OnRib {
			nominal = w.setOut(d.Nominal)
		}
		t.Rows = append(t.Rows, []export.Cell{count(d.Line), export.Str(d.Of.String()), w.setOut(d.Station), w.setOut(d.Value), nominal,
			w.signed(d.Raw), w.signed(d.Fitted), export.Str(m.remark(d))})
	}
	return t
}

func (m Measured) remark(d airfoils.Deviation) string {
	var parts []string
	if m.over(d.Raw) {
		parts = append(parts, "over")
	}
	switch {
	case d.Odd && m.over(d.Fitted):
		parts = append(parts, "far off the rest: measure again")
	case m.Fit.OK && m.over(d.Fitted):
		parts = append(parts, "over after the fit")
	}
	return strings.Join(parts, "; ")
}

// signed is a length whose sign is told.
func (w lister) signed(mm float64) export.Cell {
	c := w.setOut(mm)
	c.Text = signed(mm, w.doc.Units)
	return c
}

func signed(mm float64, u ribfile.Units) string {
	s := decimal(mm, 2)
	if u == ribfile.Inch {
		s = decimal(mm/ribfile.MMPerInch, 3)
	}
	if strings.Trim(s, "-0.") == "" || s[0] == '-' {
		return s
	}
	return "+" + s
}

// Words says what the measurements tell, a sentence a line.
func (m Measured) Words() []string {
	raw, fitted := m.Over()
	n := len(m.Deviations)
	out := []string{fmt.Sprintf("%d of %d readings are over the tolerance of %s, with nothing fitted.", raw, n, m.Units.Length(m.Tolerance))}
	f := m.Fit
	if !f.OK {
		return append(out, "No shift, turn or scale was fitted: there are too few readings for it, or they lie too far off. Measure at ten stations or more, spread over the chord.")
	}
	out = append(out, "Best fit: "+m.moves()+".")
	if 4*fitted > n {
		out = append(out, "That explains little: the shape itself differs, or along the chord and across it the scales do (--axes).")
	} else {
		out = append(out, m.scaleWords()...)
	}
	line := fmt.Sprintf("After the fit %d of %d are over the tolerance", fitted, n)
	if odd := m.oddLines(); odd != "" {
		line += "; far off the rest, and left out of the fit: " + odd + ". Measure there again"
	}
	return append(out, line+".")
}

// moves describes the fit: what would have to be done to the contour to lie on the readings.
func (m Measured) moves() string {
	f, u := m.Fit, m.Units
	length := func(mm float64, plus, minus string) string {
		if mm < 0 {
			plus = minus
		}
		if u == ribfile.Inch {
			return decimal(math.Abs(mm)/ribfile.MMPerInch, 3) + " in " + plus
		}
		return decimal(math.Abs(mm), 2) + " mm " + plus
	}
	parts := []string{"shifted " + length(f.Shift.X, "aft", "forward")}
	if !f.DepthsOnly {
		turn := "not turned"
		if degrees := decimal(math.Abs(f.Turn)*180/math.Pi, 2); f.Turn > 0 && degrees != "0.00" {
			turn = "turned " + degrees + "° tail up"
		} else if degrees != "0.00" {
			turn = "turned " + degrees + "° tail down"
		}
		parts = append(parts, length(f.Shift.Y, "up", "down"), turn)
	}
	if f.Apart {
		return strings.Join(append(parts, "scale along the chord "+scale(f.ScaleX, f.ScaleXErr), "across it "+scale(f.ScaleY, f.ScaleYErr)), ", ")
	}
	return strings.Join(append(parts, "scale "+scale(f.ScaleX, f.ScaleXErr)), ", ")
}

// scale formats a scale with twice its standard deviation, which holds nineteen times in twenty.
func scale(k, err float64) string {
	return fmt.Sprintf("%s %% ± %s", decimal(100*k, 2), decimal(200*err, 2))
}

// scaleOff is the least difference from full size that is told as one. Paper itself changes by some tenths
// of a percent with the weather (common practice, no source).
const scaleOff = 0.003

// scaleWords says whether the piece has the wrong size.
func (m Measured) scaleWords() []string {
	f := m.Fit
	wrong := func(k, err float64) bool { return math.Abs(k-1) > math.Max(scaleOff, 3*err) }
	switch {
	case f.Apart && (wrong(f.ScaleX, f.ScaleXErr) || wrong(f.ScaleY, f.ScaleYErr)):
		return []string{fmt.Sprintf("It is not full size: %s %% along the chord and %s %% across it. Print at 100 %% (“actual size”, not “fit to page”), and measure the check square in both directions.",
			decimal(100*f.ScaleX, 1), decimal(100*f.ScaleY, 1))}
	case !f.Apart && wrong(f.ScaleX, f.ScaleXErr):
		return []string{fmt.Sprintf("It is not full size: as a whole it fits best at %s %%, as a print at that scale would. Print at 100 %% (“actual size”, not “fit to page”), and measure the check square.", decimal(100*f.ScaleX, 1))}
	case math.Max(f.ScaleXErr, f.ScaleYErr) > scaleOff:
		return []string{"These readings do not tell the size well: measure at more stations, nose and tail among them."}
	}
	return []string{"It is full size, as far as these readings tell."}
}

// oddLines names the readings that the fit left out by their lines.
func (m Measured) oddLines() string {
	var parts []string
	more := 0
	for _, d := range m.Deviations {
		switch {
		case !d.Odd || !m.over(d.Fitted):
		case len(parts) < 8:
			parts = append(parts, fmt.Sprintf("line %d %s", d.Line, d.Of))
		default:
			more++
		}
	}
	if more > 0 {
		parts = append(parts, fmt.Sprintf("%d more", more))
	}
	return strings.Join(parts, ", ")
}
