// Package ribfile reads the rib file: one TOML text with the plans' table of ordinates and a few dimensions.
//
// Every length in a Doc is millimetres, whatever the file wrote; stations are millimetres from the
// leading edge; masses are grams, temperatures °C, times minutes, spread rates g/m²; angles radians. Mistakes are findings with line, column and remedy, all of them in
// one run: a line that is no TOML costs its own value, and only a mistake that may reach over several
// lines ends the reading. Bare numbers are in the file's units; text may carry its own, see ParseLength,
// ParseMass and their kin.
// What may be left out, and what then holds, stands in schema.go and in the starter file.
//
// A Doc belongs to its caller, and its slices may be changed. The package opens no files, knows no
// sections by name, and knows what the file may say, but nothing of how a rib is laid out: whether a joint
// exists, or a plate has room, is told by geom/rib, whose findings get their place from Doc.Locate.
package ribfile

// Doc is a rib file, read and completed with defaults. What the file left out holds its default.
type Doc struct {
	File     string // the name it was read under
	Title    string
	Units    Units
	Date     string // as given; may be empty
	Section  Section
	Rib      Rib
	Cap      Cap
	Nose     Block
	Tail     Block
	Spars    []Spar
	Stick    Stick
	Bays     []Bay
	Lines    []Line
	Gusset   Plate
	Gussets  []PlateAt // [[gusset.at]]
	Web      Web
	Fastener Fastener
	Varnish  Varnish
	Mass     Mass
	Adhesive Adhesive
	Batch    Batch
	Session  Session
	Scale    Scale
	Coupon   Coupon
	Jig      Jig
	Bend     Bend
	Paper    Paper
	Drawing  Drawing
	Layers   map[string]Layer // by the layer's ID
	Saw      Saw
	Sheet    Sheet
	Stock    Stock
	Wing     *Wing // nil where the file has no [wing]
	// RootPlates tells of a rib of a wing that Gussets are those of the file's top, where joints are numbered as in the rib at the root.
	RootPlates bool
	// Blended is what the section of a rib of a wing is called, where it is not Section but lies between root and tip, or is the tip's.
	Blended string

	writing *writing         // kept where there is a Wing
	whole   *Doc             // of a rib of a wing: the file it is read from
	places  map[string]place // of keys, such as "spar[1].width"
}

type place struct{ line, column int }

// Units is the unit of bare numbers, and of what is printed for people.
type Units string

// The units.
const (
	Inch Units = "in"
	MM   Units = "mm"
)

// Section says where the contour comes from: exactly one of NACA, Builtin, File and Ordinates is set.
type Section struct {
	NACA    string
	Builtin string
	File    string
	// Ordinates are rows of station, upper, lower: percent of the chord, or mm where OrdinateUnit is "length".
	Ordinates    [][3]float64
	OrdinateUnit string  // "percent" or "length"
	Fair         float64 // how far a table's points may be moved to a fair curve, mm; 0: nothing moves
	Skins        []Skin

	// Changes of a section from equations.
	ClosedTail bool
	Thickness  float64 // share of the chord; 0: as the number says
	Camber     float64 // what the camber is multiplied by
	// The ends, mm; 0: as the section has them.
	NoseRadius    float64 // of a table
	TailThickness float64 // the least at the trailing edge
}

// Skin is a sheet that lies on the contour and is taken off it.
type Skin struct {
	From, To  float64 // stations, mm
	Thickness float64
	Side      string // "upper", "lower", "both"
	// How plywood is bent round the nose.
	Grain string // which way its face grain runs: "span", "diagonal", "chord"; "none": no plywood
	Bend  string // "dry" or "soaked"
	Plies int    // 3 to 5; 0: the fewest that are made
}

// Rib is [rib].
type Rib struct {
	Mirrored     int // of Count, in a wing: right ribs that have something on one face alone, which lies on their other face
	Chord        float64
	Count        int
	LeadingEdge  float64 // station where the rib begins; 0: at the leading edge
	TrailingEdge float64 // station where the rib is cut off
	// The faces of spars' openings along which the rib is cut, where the file names them; then the stations are the whole rib's.
	LeadingAt, TrailingAt Face
}

// Face is a face of a spar's opening.
type Face struct {
	Named bool
	Spar  int // index in Doc.Spars
	Aft   bool
}

// Cap is [cap].
type Cap struct {
	Depth, Width float64
	From         float64 // station where the caps begin, on the nose block; 0: they run round it to the leading edge
	Material     string
}

// Block is [nose] or [tail]. Present is false where the file has no such block.
type Block struct {
	Present  bool
	Station  float64 // block_to of the nose, block_from of the tail
	Material string
}

// Spar is one [[spar]].
type Spar struct {
	Name                 string
	At, Width, Clearance float64 // At is where its centre plane crosses the chord line
	Tilt                 float64 // radians, in the rib's plane: its faces lean aft at the top by it
	Sweep                float64 // radians: between the spar and a line square to the rib, seen along the spar's faces from above
	Posts                bool
}

// Stick is [stick].
type Stick struct {
	Depth, Width float64
	Material     string
	Meet         string // "butt" or "mitre"
	Plies        int    // strips of the depth given, side by side in the plane of the rib and glued together; 0 or 1: one
}

// Bay is one [[bay]].
type Bay struct {
	From, To Support
	Pattern  string // "warren", "pratt", "uprights", "none"
	Panels   int
	Start    string // "upper" or "lower"
}

// Support is an end of a bay: a spar, the nose or tail block, or a station.
type Support struct {
	Kind    string  // "spar", "nose", "tail", "station"
	Spar    int     // index in Doc.Spars, where Kind is "spar"
	Station float64 // mm, where Kind is "station"
}

// Line is one [[line]].
type Line struct{ From, To Point }

// Point is a place on a cap, such as "lower rear aft" or "upper 75%".
type Point struct {
	Side    string  // "upper" or "lower"
	Spar    int     // index in Doc.Spars, or −1 for a station
	Aft     bool    // which face of the spar
	Station float64 // mm, where Spar is −1
}

// Plate is [gusset]: what a plate is unless a joint says otherwise. A face that has a web has no plates: where one has, Faces
// is 1 and Face the other; where no face is left, Shape is "none".
type Plate struct {
	Shape     string  // "round", "rectangle", "none"
	Diameter  float64 // of round plates
	Length    float64 // of rectangles, along the cap
	Height    float64 // of rectangles, across the rib
	Thickness float64
	Material  string
	Faces     int     // 1 or 2
	Face      string  // of plates on one face, which: "near", as the drawing shows the rib, or "far"
	Inset     float64 // of the plate's edge, inside the contour
	Grain     string  // which way the face grain runs: along the "cap", along its "stick", at "45" degrees to the cap, "any"
}

// PlateAt is one [[gusset.at]]: the plate at the joints named. What it leaves out is taken from [gusset].
type PlateAt struct {
	Joints []string
	Plate  Plate // complete; Thickness, Material and Faces as in [gusset]
}

// Adhesive is [adhesive].
type Adhesive struct {
	RatioA, RatioB     float64 // part A : part B
	By                 string  // "weight" or "volume"
	DensityA, DensityB float64 // g/cm³, where By is "volume"
	Density            float64 // mixed, g/cm³
	GlueLine           float64 // cured thickness, mm
	Amount             string  // what says how much is put on: BySpread, ByRate or BySqueezeOut
	Spread             float64 // wet film on each coated surface, mm
	Rate               float64 // g/m², where Amount is ByRate
	RateOf             string  // "glue-line": the rate is for both surfaces of a joint together; "surface": for each that is coated
	SqueezeOut         float64 // share of what stays in the joint, where Amount is BySqueezeOut
	Coat               string  // "both" or "one"
	EndGrain           float64 // how many times its area end grain counts
	CupLoss            float64 // share of what is put on
}

// How the rib file says how much adhesive is put on.
const (
	BySpread     = "spread"
	ByRate       = "rate"
	BySqueezeOut = "squeeze_out"
)
