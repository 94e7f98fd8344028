package ribfile

import (
	"slices"
	"strings"
)

// The woods for caps, sticks and blocks, the plywoods for plates, and all of them together. What they
// weigh is the take-off's business.
var (
	Woods     = []string{"sitka-spruce", "white-spruce", "douglas-fir", "yellow-birch", "paper-birch", "white-ash"}
	Plywoods  = []string{"birch-plywood"}
	Materials = slices.Concat(Woods, Plywoods)
)

// Defaults of what the file leaves out, in millimetres where they are lengths. Where units is "in"
// they are the same sizes. Required are one source under [section], rib.chord, and of every spar its
// name, at and width; of a bay from, to and (but for pattern "none") panels; of a skin its thickness; of a
// line from and to; of gusset.at its joints; and density_a and density_b where parts are measured by volume.
const (
	defaultTitle      = "Rib"
	defaultCount      = 1
	defaultCapDepth   = MMPerInch / 4
	defaultCapWidth   = MMPerInch / 2
	defaultWood       = "sitka-spruce" // of the cap; sticks and blocks take the cap's
	defaultClearance  = MMPerInch / 64 // each side: 1/32 in total over the spar (common practice, no source)
	defaultPosts      = true
	defaultMeet       = "butt"
	defaultStart      = "upper"
	defaultShape      = "round"
	defaultDiameter   = 9 * MMPerInch / 8
	defaultLength     = 2 * MMPerInch
	defaultHeight     = MMPerInch
	defaultPlate      = MMPerInch / 16
	defaultPlywood    = "birch-plywood"
	defaultFaces      = 2
	defaultFace       = "near"
	defaultPlies      = 1
	defaultGrain      = "cap"             // of the plates' face, common practice, no source
	defaultDensity    = 1.15              // g/cm³, mixed epoxy (from memory; the maker's figure counts)
	defaultGlueLine   = 0.006 * MMPerInch // within 0.002–0.010 in (from memory)
	defaultSpread     = 0.010 * MMPerInch // 0.29 kg/m², 60 lb per 1,000 ft² (from memory)
	defaultCoat       = "both"            // FAA AC 43.13-1B, 1-7
	defaultCupLoss    = 0.2               // common practice, no source
	defaultOrdinate   = "percent"
	defaultSkinSide   = "both"
	defaultSkinGrain  = "span" // plywood bends most easily so
	defaultSkinBend   = "dry"
	defaultCamber     = 1.0 // of what the number says
	defaultAdhesiveBy = "weight"
)

// The limits of a spar's lean in the plane of the rib, from washout and a swept plan, and of its sweep, degrees
// (common practice, no source).
const mostTilt, mostSweep = 15, 45

// The limits of a section's thickness, percent of the chord, and of the scale of its camber. No wooden wing is
// thinner or thicker (common practice, no source).
const leastThickness, mostThickness, mostCamber = 1, 40, 3

// tables lists the rib file's tables; listTables those that are written with double brackets.
var (
	tables = []string{"section", "rib", "cap", "nose", "tail", "spar", "stick", "bay", "line", "gusset", "web", "adhesive", "batch", "session", "scale", "coupon",
		"fastener", "varnish", "mass",
		"jig", "bend", "paper", "drawing", "layers", "saw", "sheet", "stock", "wing"}
	listTables = []string{"spar", "bay", "line", "gusset.at", "section.skin", "sheet.stock", "stock.bar", "wing.spar", "wing.rib"}
)

// schema holds the keys of each table; "" is the top of the file, whose tables are in tables.
var schema = map[string][]string{
	"": {"title", "units", "date"},
	"section": {"naca", "builtin", "file", "ordinates", "ordinate_unit", "fair", "skin",
		"closed_tail", "thickness", "camber", "nose_radius", "tail_thickness"},
	"section.skin": {"from", "to", "thickness", "side", "grain", "bend", "plies"},
	"rib":          {"chord", "count", "leading_edge", "trailing_edge"},
	"cap":          {"depth", "width", "from", "material"},
	"nose":         {"block_to", "material"},
	"tail":         {"block_from", "material"},
	"spar":         {"name", "at", "width", "clearance", "tilt", "sweep", "posts"},
	"stick":        {"depth", "width", "plies", "material", "meet"},
	"bay":          {"from", "to", "pattern", "panels", "start"},
	"line":         {"from", "to"},
	"gusset":       {"shape", "diameter", "length", "height", "thickness", "material", "faces", "face", "inset", "grain", "at"},
	"gusset.at":    {"joints", "shape", "diameter", "length", "height", "inset", "grain"},
	"web":          {"faces", "thickness", "material", "inset", "grain"},
	"fastener":     {"kind", "crown", "leg", "wire", "material", "angle", "spacing", "edge", "end", "after", "box", "price"},
	"varnish":      {"coats", "rate"},
	"mass":         {"moisture", "density", "weighed"},
	"mass.density": Materials,
	"mass.weighed": Weighable,
	"adhesive": {"ratio", "by", "density_a", "density_b", "density", "glue_line", "spread", "rate", "rate_of",
		"squeeze_out", "coat", "end_grain", "cup_loss"},
	"batch": {"temperature", "pace", "pot_life", "pot_life_at", "pot_life_mass", "open_time", "closed_time", "cure_least",
		"rate_doubles", "mass_power"},
	"session":  {"time", "lay", "in_jig", "cure", "jigs"},
	"scale":    {"step", "ratio_tolerance", "cup_least", "cup_most"},
	"coupon":   {"overlap", "width", "strip", "stress", "wood_failure"},
	"jig":      {"blocks", "block_length", "block_width", "block_height", "clearance", "spacing", "room", "relief", "margin"},
	"bend":     {"dry", "care", "soak", "spring_back"},
	"paper":    {"size", "turn", "margin", "overlap", "printed"},
	"drawing":  {"owner", "number", "revision", "drawn_by", "approved_by", "inches", "dxf_units"},
	"layers":   LayerIDs,
	"layers.*": {"name", "color"}, // of any layer
	"saw": {"plates", "laser_kerf", "hole_saw", "hole_saw_kerf", "pilot", "band_kerf", "router_bit",
		"feed", "safe_height", "breakthrough"},
	"sheet":       {"gap", "margin", "grain", "effort", "stock"},
	"sheet.stock": {"length", "width", "outline", "count", "price"},
	"stock":       {"kerf", "trim", "offcut", "allowance", "scarf", "bar"},
	"stock.bar":   {"length", "count", "price", "of"},
	"wing": {"semi_span", "tip_chord", "washout", "twist_axis", "align", "sweep", "stations", "spacing", "wings",
		"tip", "spar", "rib"},
	"wing.spar": {"name", "tip"},
	"wing.rib":  {"ribs", "at", "between", "kind", "name"}, // and tables of the file
}

// known lists what may stand in a table.
func known(table string) []string {
	switch table {
	case "":
		return append(slices.Clone(schema[""]), tables...)
	case "wing.tip":
		return slices.DeleteFunc(slices.Clone(schema["section"]), func(key string) bool { return key == "skin" })
	case "wing.rib":
		return append(slices.Clone(schema[table]), ofOneRib...)
	}
	return schema[table]
}

// owners lists the tables that know the key, written as in the file.
func owners(key string) []string {
	var out []string
	for _, t := range append([]string{""}, append(slices.Clone(tables), "section.skin", "gusset.at", "mass.density", "mass.weighed", "sheet.stock", "stock.bar", "wing.spar", "wing.rib")...) {
		if t != "layers" && slices.Contains(schema[t], key) { // layers are named as much else is
			out = append(out, header(t))
		}
	}
	if len(out) == 0 && slices.Contains(LayerIDs, key) {
		return []string{header("layers")}
	}
	return out
}

// header writes a table's name as it stands in the file.
func header(table string) string {
	switch {
	case table == "":
		return "the top of the file"
	case table == "layers.*":
		return "a layer"
	case slices.Contains(listTables, table):
		return "[[" + table + "]]"
	}
	return "[" + table + "]"
}

// schemaTable is the table's name without the numbers of its entries: "spar[1]" is "spar".
func schemaTable(key string) string {
	for {
		open := strings.IndexByte(key, '[')
		if open < 0 {
			return key
		}
		end := strings.IndexByte(key[open:], ']')
		if end < 0 {
			return key
		}
		key = key[:open] + key[open+end+1:]
	}
}
