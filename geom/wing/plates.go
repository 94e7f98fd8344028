package wing

import (
	"fmt"
	"math"
	"slices"

	"ribwright/geom/finding"
	"ribwright/geom/rib"
)

// FindPlates tells which plates named at the top of the file stand elsewhere in a rib of this kind than in the rib at the
// root: joints are numbered anew in each rib, nose to tail, so that with other bays or a tail rib "U4" may be another
// place. r is the kind, laid out. As for Bevel, Section comes first.
func (p Plan) FindPlates(k Kind, r *rib.Rib) []finding.Finding {
	if !k.Doc.RootPlates || !p.surfaced() {
		return nil
	}
	root := p.sections.rootRib(p)
	var out []finding.Finding
	for i, at := range k.Doc.Gussets {
		for _, id := range at.Joints {
			a, b := where(root, id), where(r, id)
			if a == b || a == (spot{}) || b == (spot{}) || math.Abs(a.share-b.share) < samePlace || a.joint() == b.joint() {
				continue
			}
			out = append(out, finding.Finding{Severity: finding.Warning, Code: "gusset-elsewhere", Key: fmt.Sprintf("gusset.at[%d].joints", i), Part: id,
				Message: fmt.Sprintf("Joint %s of this rib stands at %.0f %% of the chord, that of the rib at the root at %.0f %%: the plate that the top of the file names for it may be meant for another joint.", id, 100*b.share, 100*a.share),
				Fix:     "Look where the drawing numbers it, and name this rib's own plates under its [[wing.rib]]: gusset = { at = [{ joints = [\"" + id + "\"], … }] }; with at = [] all its plates are as [gusset] says."})
		}
	}
	return out
}

// samePlace is the share of the chord within which two joints of one number are one: where the spars' widths, which do not go with
// the chord, move posts along a tapered wing (common practice, no source).
const samePlace = 0.01

// spot is where a joint stands in its rib.
type spot struct {
	share         float64 // of the chord
	behind, ahead string  // the spars on either side of it
	nth           int     // of the joints behind that spar, on its cap
}

// joint is the spot without the measure.
func (s spot) joint() spot { s.share = 0; return s }

// where finds a joint in a rib; what it returns is empty where the rib has none of that name.
func where(r *rib.Rib, id string) spot {
	i := slices.IndexFunc(r.Joints, func(j rib.Joint) bool { return j.ID == id })
	if i < 0 {
		return spot{}
	}
	j := r.Joints[i]
	s := spot{share: j.Station / r.Chord}
	behind := math.Inf(-1)
	for _, one := range r.Spars {
		switch {
		case one.At < j.Station:
			s.behind, behind = one.Name, one.At
		case s.ahead == "":
			s.ahead = one.Name
		}
	}
	for _, o := range r.Joints {
		if o.Side == j.Side && o.Station > behind && o.Station <= j.Station {
			s.nth++
		}
	}
	return s
}
