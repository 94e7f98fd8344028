package wing

import (
	"fmt"

	"ribwright/geom/ribfile"
)

// HandWords says on a kind's drawing how its left and its right ribs differ, and how both come from one jig; nothing where they do
// not differ. With its nose on the left a rib is seen from the aircraft's left side: a left rib from the tip's, a right one
// from the root's. Where something lies on one face alone, the first sentence says so and the second how a right rib is built.
// As for Bevel, Section comes first.
func (p Plan) HandWords(k Kind) []string {
	if p.Wings < 2 || len(k.Places) == 0 {
		return nil
	}
	out := faceWords(k.Doc)
	if b := p.Bevel(k); b.Across >= shaving {
		if len(out) == 0 {
			out = []string{"The drawing shows the middle of a left rib, seen from the tip's side; a right one is built alike, and its caps are bevelled the other way."}
		}
		high, low := "far", "near"
		if b.Angle > 0 {
			high, low = low, high
		}
		out = append(out, fmt.Sprintf("Bevel the caps when the ribs are on their spars, by %s over the width at most, at %s: there a left rib's %s face stands higher, a right rib's %s one.",
			k.Doc.Length(b.Across), k.Doc.Length(b.Station), high, low))
	}
	return out
}

// faceWords says what lies on which face of a right rib, and when it is glued on: what lies on the far face of a left rib lies
// on the near one of a right rib, and is glued on in the jig.
func faceWords(doc *ribfile.Doc) []string {
	plates, web := oneFace(doc), webOnOneFace(doc)
	switch {
	case web && plates && doc.Web.Faces == "far":
		return drawnLeft("web and plates on the other faces", "the web goes on in the jig, the plates when it is turned over.")
	case web && plates:
		return drawnLeft("web and plates on the other faces", "the plates go on in the jig, the web when it is turned over.")
	case web && doc.Web.Faces == "far":
		return drawnLeft("its web on the other face", "the web goes on in the jig.")
	case web:
		return drawnLeft("its web on the other face", "glue its joints there, turn it over when they have cured, and glue the web on.")
	case plates && doc.Gusset.Face == "far":
		return drawnLeft("its plates on the other face", "the plates go on in the jig.")
	case plates:
		return drawnLeft("its plates on the other face", "glue its joints there, turn it over when they have cured, and glue the plates on.")
	}
	return nil
}

func drawnLeft(differs, how string) []string {
	return []string{"The drawing shows a left rib, seen from the tip's side; a right one has " + differs + ".", "A right rib is built in the same jig: " + how}
}
