package takeoff

import (
	"math"

	"ribwright/export"
	"ribwright/geom/bend"
	"ribwright/geom/rib"
)

// What the report says of the parts of a rib. Sums of a set add up what can be added.

// num is a number with six decimals at most, and never −0.
type num float64

// MarshalJSON writes the number in plain decimals; a value that is no number, such as the radius of a straight line, is null.
func (n num) MarshalJSON() ([]byte, error) { return n.append(make([]byte, 0, 24)), nil }

func (n num) append(b []byte) []byte {
	if v := float64(n); math.IsNaN(v) || math.IsInf(v, 0) {
		return append(b, "null"...)
	}
	return export.AppendNum(b, float64(n), 6)
}

// round keeps six decimals, and makes no −0.
func round(v float64) float64 { return math.Round(v*1e6)/1e6 + 0 }

type areas map[string]num

type pt [2]num

// line is a row of points. A report is points for the most part, so they are written here and not by reflection.
type line []pt

// MarshalJSON writes the points.
func (l line) MarshalJSON() ([]byte, error) {
	b := append(make([]byte, 0, 32*len(l)+2), '[')
	for i := range l {
		b = appendRow(b, i, l[i][:])
	}
	return append(b, ']'), nil
}

// outline is the points of a plate, each with the bulge of the edge that leaves it.
type outline [][3]num

// MarshalJSON writes the points as those of a line.
func (o outline) MarshalJSON() ([]byte, error) {
	b := append(make([]byte, 0, 40*len(o)+2), '[')
	for i := range o {
		b = appendRow(b, i, o[i][:])
	}
	return append(b, ']'), nil
}

// appendRow adds entry i of a list, a few numbers.
func appendRow(b []byte, i int, row []num) []byte {
	if i > 0 {
		b = append(b, ',')
	}
	for k, n := range row {
		c := byte(',')
		if k == 0 {
			c = '['
		}
		b = n.append(append(b, c))
	}
	return append(b, ']')
}

type contourReport struct {
	AreaMM2      num  `json:"area_mm2"`
	LengthMM     num  `json:"length_mm"`
	DepthMaxMM   num  `json:"depth_max_mm"`
	DepthMaxAtMM num  `json:"depth_max_at_mm"`
	Points       line `json:"points"`
}

type sparReport struct {
	Name           string `json:"name"`
	AtMM           num    `json:"at_mm"`
	WidthMM        num    `json:"width_mm"`
	DepthFrontMM   num    `json:"depth_front_mm"`
	DepthRearMM    num    `json:"depth_rear_mm"`
	BevelTopDeg    num    `json:"bevel_top_deg"`
	BevelBottomDeg num    `json:"bevel_bottom_deg"`
	TiltDeg        num    `json:"tilt_deg,omitempty"`
	SweepDeg       num    `json:"sweep_deg,omitempty"`
	GapMM          num    `json:"gap_mm,omitempty"` // of a spar with tilt or sweep: the opening, square to its faces
	Opening        line   `json:"opening"`
}

type capReport struct {
	ID            string     `json:"id"`
	LengthMM      num        `json:"length_mm"`
	RadiusMinMM   num        `json:"radius_min_mm"`
	RadiusMinAtMM num        `json:"radius_min_at_mm"`
	AreaMM2       num        `json:"area_mm2"`
	Bend          bendReport `json:"bend"`
	Outline       line       `json:"outline"`
}

// bendReport is how a cap strip is bent where it is bent most: the radius of its middle, over its depth.
type bendReport struct {
	RadiusMM   num       `json:"radius_mm"`
	AtMM       num       `json:"at_mm"`
	Ratio      num       `json:"ratio"`
	StrainPct  num       `json:"strain_pct"`
	Tier       bend.Tier `json:"tier"`
	DryFromMM  num       `json:"dry_from_mm"`
	CareFromMM num       `json:"care_from_mm"`
	SoakFromMM num       `json:"soak_from_mm"`
}

type blockReport struct {
	ID      string `json:"id"`
	AreaMM2 num    `json:"area_mm2"`
	Outline line   `json:"outline"`
}

type stickReport struct {
	ID          string       `json:"id"`
	Kind        rib.Kind     `json:"kind"`
	From        string       `json:"from"`
	To          string       `json:"to"`
	LongPointMM num          `json:"long_point_mm"`
	Ends        [2]endReport `json:"ends"`
	AreaMM2     num          `json:"area_mm2"`
	Outline     line         `json:"outline"`
}

type endReport struct {
	AnglesDeg []num    `json:"angles_deg"`
	Against   []string `json:"against"`
	GapMM     num      `json:"gap_mm"`
}

type jointReport struct {
	ID      string   `json:"id"`
	At      pt       `json:"at"`
	Members []string `json:"members"`
	ButtMM2 areas    `json:"butt_mm2"`
}

type gussetReport struct {
	ID       string    `json:"id"`
	Joints   []string  `json:"joints"`
	Shape    rib.Shape `json:"shape"`
	Centre   pt        `json:"centre"`
	AngleDeg num       `json:"angle_deg"`
	SizeMM   []num     `json:"size_mm"`
	Outline  outline   `json:"outline"`
	AreaMM2  num       `json:"area_mm2"`
	Faces    int       `json:"faces"`
	MarkMM   num       `json:"mark_mm"`
	GlueMM2  areas     `json:"glue_mm2"`
}

// webReport is the web on a face, 1 or 2.
type webReport struct {
	Face        int          `json:"face"`
	ThicknessMM num          `json:"thickness_mm"`
	Outline     line         `json:"outline"`
	Holes       []webOpening `json:"holes"`
	AreaMM2     num          `json:"area_mm2"`
	GlueMM2     areas        `json:"glue_mm2"`
}

type webOpening struct {
	Spar    string `json:"spar"`
	Outline line   `json:"outline"`
}

type glueReport struct {
	GussetOneFaceMM2 num `json:"gusset_one_face_mm2"`
	GussetMM2        num `json:"gusset_mm2"`
	ButtMM2          num `json:"butt_mm2"`
	CapsMM2          num `json:"caps_mm2"`
	WebMM2           num `json:"web_mm2,omitempty"` // all faces
	PliesMM2         num `json:"plies_mm2,omitempty"`
	TotalMM2         num `json:"total_mm2"`
}

func (r *glueReport) add(o glueReport) {
	r.GussetOneFaceMM2 += o.GussetOneFaceMM2
	r.GussetMM2 += o.GussetMM2
	r.ButtMM2 += o.ButtMM2
	r.CapsMM2 += o.CapsMM2
	r.WebMM2 += o.WebMM2
	r.PliesMM2 += o.PliesMM2
	r.TotalMM2 += o.TotalMM2
}

type adhesiveReport struct {
	InJointG    num `json:"in_joint_g"`
	SqueezeOutG num `json:"squeeze_out_g"`
	CupLossG    num `json:"cup_loss_g"`
	MixedG      num `json:"mixed_g"`
	PartAG      num `json:"part_a_g"`
	PartBG      num `json:"part_b_g"`
	PartAML     num `json:"part_a_ml"`
	PartBML     num `json:"part_b_ml"`
}

// spotReport is what a joint takes on one side of a rib, 1 or 2.
type spotReport struct {
	ID          string `json:"id"`
	Side        int    `json:"side"`
	PlateMM2    num    `json:"plate_mm2"`
	EndGrainMM2 num    `json:"end_grain_mm2"`
	CapsMM2     num    `json:"caps_mm2"`
	MixedG      num    `json:"mixed_g"`
}

func (r *adhesiveReport) add(o adhesiveReport) {
	r.InJointG += o.InJointG
	r.SqueezeOutG += o.SqueezeOutG
	r.CupLossG += o.CupLossG
	r.MixedG += o.MixedG
	r.PartAG += o.PartAG
	r.PartBG += o.PartBG
	r.PartAML += o.PartAML
	r.PartBML += o.PartBML
}

type massReport struct {
	Caps      num `json:"caps"`
	Sticks    num `json:"sticks"`
	Blocks    num `json:"blocks"`
	Gussets   num `json:"gussets"`
	Adhesive  num `json:"adhesive"`
	Fasteners num `json:"fasteners"` // that stay
	Varnish   num `json:"varnish"`
	Total     num `json:"total"`
}

// fastenerReport is a staple or a nail: its face, 1 or 2, and where its legs stand.
type fastenerReport struct {
	Plate  string `json:"plate"`
	Face   int    `json:"face"`
	Member string `json:"member"`
	Legs   line   `json:"legs"`
}

func (r *massReport) add(o massReport) {
	r.Caps += o.Caps
	r.Sticks += o.Sticks
	r.Blocks += o.Blocks
	r.Gussets += o.Gussets
	r.Adhesive += o.Adhesive
	r.Fasteners += o.Fasteners
	r.Varnish += o.Varnish
	r.Total += o.Total
}
