package ribfile

// Varnish is [varnish]: what is put on the wood outside the joints.
type Varnish struct {
	Coats   int     // 0: none is counted
	RateGM2 float64 // what stays of one coat when it is dry
}

// Mass is [mass]: what the wood weighs, and what the scale says.
type Mass struct {
	Moisture float64            // of the wood, percent of its dry mass
	Density  map[string]float64 // g/cm³ of materials that the builder has weighed
	WeighedG map[string]float64 // of one rib, by the words of Weighable
}

// Weighable are the parts of a rib that the rib file may say the weight of; "rib" is the whole.
var Weighable = []string{"caps", "sticks", "blocks", "plates", "rib"}

const (
	defaultMoisture = 12 // at which Wood Handbook, FPL-GTR-190, Table 5-3 gives its figures
	mostMoisture    = 30 // fibre saturation
	defaultVarnish  = 40 // g/m², of half solids from a litre on 12 m² (from memory; the maker's figure counts)
)

func (r *reader) varnish(t tab) {
	v := &r.doc.Varnish
	v.Coats = t.whole("coats", 0, 0, 20, "coats")
	v.RateGM2, _ = t.rate("rate", defaultVarnish, limit{min: 0, above: true, max: 1000})
}

func (r *reader) mass(t tab) {
	m := &r.doc.Mass
	m.Moisture = t.percent("moisture", defaultMoisture, 0, mostMoisture, "its dry mass")
	if d := t.inner("density"); d.v != nil {
		m.Density = map[string]float64{}
		for _, name := range Materials {
			if n := d.number(name, 0, 0.1, 1.5, false, "g/cm³"); n > 0 {
				m.Density[name] = n
			}
		}
	}
	if w := t.inner("weighed"); w.v != nil {
		m.WeighedG = map[string]float64{}
		for _, name := range Weighable {
			if g, _ := w.mass(name, 0, limit{min: 0, above: true, max: 1e5}); g > 0 {
				m.WeighedG[name] = g
			}
		}
	}
}

// inner returns a table within the table; its value is nil where there is none.
func (t tab) inner(key string) tab {
	v := t.get(key)
	out := tab{t.r, nil, join(t.key, key)}
	switch {
	case v == nil:
	case v.kind != tableKind:
		t.wrongType(v, "a table", header(out.key)+" on a line of its own, with its keys below")
	default:
		out.v = v
		t.r.unknownKeys(v, out.key)
	}
	return out
}
