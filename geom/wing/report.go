package wing

import (
	"cmp"
	"math"
)

// Report is the wing as report.json holds it: lengths mm, angles degrees, six decimals.
type Report struct {
	SemiSpanMM float64       `json:"semi_span_mm"`
	TipChordMM float64       `json:"tip_chord_mm"`
	Wings      int           `json:"wings"`
	Places     []placeReport `json:"places"`
}

// placeReport is one rib. Its nose is the leading edge of its chord line against the root's: aft, up.
type placeReport struct {
	Rib          string     `json:"rib"`
	Called       string     `json:"called,omitempty"`
	Hand         Hand       `json:"hand"`
	Drawing      string     `json:"drawing"` // the kind's name
	Kind         string     `json:"kind"`
	ChordMM      float64    `json:"chord_mm"`
	SpanMM       float64    `json:"span_mm"`
	NoseMM       [2]float64 `json:"nose_mm"`
	IncidenceDeg float64    `json:"incidence_deg"` // against the root's chord line; negative: nose down
}

// Report returns every rib of the wing in its place, root to tip, for report.json; nil where the rib file has no [wing]. only is
// the drawing's name where there is one kind.
func (p Plan) Report(only string) *Report {
	if p.layout == nil {
		return nil
	}
	out := &Report{round(p.SemiSpan), round(p.wing.TipChord), p.Wings, []placeReport{}}
	for _, s := range p.Stands() {
		out.Places = append(out.Places, placeReport{s.Rib, s.Called, s.Hand, cmp.Or(s.Kind.Name, only), s.Kind.Kind, round(s.Kind.Doc.Rib.Chord),
			round(s.Span), [2]float64{round(s.Nose.X), round(s.Nose.Y)}, round(s.Incidence * 180 / math.Pi)})
	}
	return out
}

func round(v float64) float64 { return math.Round(v*1e6)/1e6 + 0 }
