package ribfile

// Wing is [wing]: the ribs of a whole wing, root to tip. The rest of the file is the rib at the root.
type Wing struct {
	SemiSpan  float64   // along the span, from the root to the tip; span stations count from the root
	TipChord  float64   // as [rib] chord where the file gives none
	Washout   float64   // radians that the tip is turned against the root; positive: nose down
	TwistAxis float64   // share of the chord, about which ribs are turned
	Align     float64   // share of the chord; these points of all ribs stand on one line in plan
	Sweep     float64   // radians of that line against the span; positive: the tip stands aft
	Stations  []float64 // span stations of the ribs, root to tip: ribs 1, 2 …
	Wings     int       // 2: left and right; 1: one of them
	TipSpars  []float64 // station at the tip where each of Doc.Spars stands
	TipGiven  bool      // the file gives a section of its own for the tip
	Ribs      []WingRib
}

// WingRib is one [[wing.rib]]: ribs that differ from the rest of the file. What differs is read by Doc.Stand.
type WingRib struct {
	Ribs    []int     // numbers of the ribs, from 1 at the root
	At      []float64 // span stations of further ribs
	Between []int     // numbers of ribs; a further rib stands midway between each and the next
	Kind    string    // one of ribKinds; empty: as it is otherwise
	Name    string    // what the builder calls it; may be empty
}

// Defaults of the wing.
const (
	defaultTwistAxis = 25 // percent of the chord
	defaultAlign     = 25
	defaultWings     = 2
	defaultKind      = "full"
)

// mostStations keeps a wrong unit from filling the memory; mostWashout and mostBack are above any wooden wing's, in degrees
// (common practice, no source).
const (
	mostStations = 5000
	mostWashout  = 15
	mostBack     = 45
)

// sameSpan is the distance along the span below which two ribs stand at one place, mm.
const sameSpan = 0.01
