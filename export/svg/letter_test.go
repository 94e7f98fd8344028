package svg

import (
	"bytes"
	"testing"

	"ribwright/export"
	"ribwright/geom"
)

// TestLettersNotKept writes a text in a style that is kept and in one that is not any more: the same bytes, whichever text came
// first in a program that writes many files at once.
func TestLettersNotKept(t *testing.T) {
	d := export.Drawing{Layers: []export.Layer{{ID: "text"}}, Sheets: []export.Sheet{{W: 300, H: 300}}}
	var items []export.Item
	for i := range 200 {
		items = append(items, export.Item{Layer: "text", Text: &export.Text{S: "Rib 4 × 38.5 – ⌀", Height: 2.345,
			At: geom.Pt{X: 20 + float64(i)/160000, Y: 250 - float64(i)/160000}}}) // on the edge of rounding, many of them
	}
	d.Sheets[0].Parts = []export.Part{{Items: items}}
	var first, second bytes.Buffer
	if err := Write(&first, d, 0); err != nil {
		t.Fatal(err)
	}
	was := kept.n.Swap(mostKept)
	defer kept.n.Store(was)
	kept.styles.Clear()
	if err := Write(&second, d, 0); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(first.Bytes(), second.Bytes()) {
		t.Error("the bytes differ")
	}
}
