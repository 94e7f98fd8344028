package shop

import (
	"slices"

	"ribwright/export"
	"ribwright/geom"
	"ribwright/geom/ribfile"
)

// correctedWords says on a sheet that it is corrected, and for what.
func correctedWords(p ribfile.Printed, u ribfile.Units) string {
	return "Corrected for a printer that prints " + p.Words(u) + "."
}

// Corrected returns a drawing for a printer that does not print true: every sheet is scaled, across and up
// apart, so that its print is full size, and says so in its free place nearest to a corner. A printer that was not
// measured, or is true, gets the drawing as it is. Pages of the tiled drawing are corrected by Tiles.
func Corrected(d export.Drawing, p ribfile.Printed, u ribfile.Units) export.Drawing {
	if !p.Off() {
		return d
	}
	const margin, air = 4.0, 1.0
	words := correctedWords(p, u)
	w := textWidth(words, small, true) + 2*air
	out := d
	if !slices.ContainsFunc(d.Layers, func(l export.Layer) bool { return l.ID == layerCaution }) {
		out.Layers = append(d.Layers[:len(d.Layers):len(d.Layers)], export.Layer{ID: layerCaution, Pen: export.Pen{Width: narrow}})
	}
	out.Sheets = make([]export.Sheet, len(d.Sheets))
	for i, s := range d.Sheets {
		free := newFreePaper(geom.NewBox(geom.Pt{X: margin, Y: margin}, geom.Pt{X: s.W - margin, Y: s.H - margin}))
		for _, part := range s.Parts {
			for _, k := range newInk(part.All()) {
				free.chain(k.segs, geom.Pt{}, air)
			}
		}
		at := geom.Pt{X: margin, Y: 1} // a sheet that is full says it in its margin
		if b, ok := free.find(w, small+2*air, nil); ok {
			at = b.Min
		}
		s.Parts = append(s.Parts[:len(s.Parts):len(s.Parts)], export.Part{Items: []export.Item{{Layer: layerCaution,
			Text: &export.Text{S: words, At: at.Add(geom.Pt{X: air, Y: air}), Height: small, Bold: true}}}})
		out.Sheets[i] = s
	}
	x, y := p.Correction()
	return export.Scaled(out, x, y)
}
