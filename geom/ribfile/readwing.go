package ribfile

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// ofOneRib lists the tables that may differ from rib to rib. The others are of the workshop, and the same for all ribs of a
// wing: they are cut, glued and listed together.
var ofOneRib = []string{"section", "rib", "cap", "nose", "tail", "spar", "stick", "bay", "line", "gusset", "web", "fastener", "varnish", "mass", "adhesive",
	"jig", "bend", "paper", "drawing"}

// ofAllRibs lists keys of such tables that nevertheless are the same for all ribs: one adhesive is mixed for all, and the lists and
// files of the set are written one way.
var ofAllRibs = map[string][]string{
	"adhesive": {"ratio", "by", "density_a", "density_b", "density", "cup_loss"},
	"drawing":  {"inches", "dxf_units"},
}

var wingName = regexp.MustCompile(`^[A-Za-z][A-Za-z0-9-]{0,11}$`)

func (r *reader) wing(t tab) {
	if t.v == nil {
		return
	}
	t.missing("semi_span", `semi_span = "13 ft"`)
	w := &Wing{}
	r.doc.Wing = w
	w.SemiSpan, _ = t.length("semi_span", 0, limit{min: 100, max: 50000})
	w.TipChord, _ = t.length("tip_chord", r.doc.Rib.Chord, limit{min: 50, max: 10000})
	degrees := math.Pi / 180
	w.Washout = t.number("washout", 0, -mostWashout, mostWashout, false, "degrees") * degrees
	w.Sweep = t.number("sweep", 0, -mostBack, mostBack, false, "degrees") * degrees
	w.TwistAxis = t.part("twist_axis", defaultTwistAxis)
	w.Align = t.part("align", defaultAlign)
	w.Wings = t.whole("wings", defaultWings, 1, 2, "wings")
	w.Stations = r.wingStations(t, w.SemiSpan)
	r.wingCount(r.root)
	r.wingWeighed()
	r.wingSweep()
	r.wingTip(t, w)
	r.wingSpars(t, w)
	for _, one := range r.tableList("wing.rib", "rib", t.v) {
		r.wingRib(one, w)
	}
}

// part reads a share of the chord, "25%", as 0.25; percent is the default.
func (t tab) part(key string, percent float64) float64 {
	return t.percent(key, percent, 0, 100, "the chord") / 100
}

// wingCount refuses a number of ribs beside the wing's stations, at the file's top or under a [[wing.rib]].
func (r *reader) wingCount(of *value) {
	if t := (tab{r, of, ""}).get("rib"); t != nil && t.kind == tableKind && t.fields["count"] != nil {
		v := t.fields["count"]
		r.tell(CodeWingCount, v.key, v.at, "rib.count stands beside [wing], which says where each rib stands and so how many there are.", "Take count out.")
	}
}

// wingSweep refuses the sweep of a spar beside the wing's, which follows from where its spars stand.
func (r *reader) wingSweep() {
	t := (tab{r, r.root, ""}).get("spar")
	if t == nil {
		return
	}
	for _, item := range t.items {
		if item.kind == tableKind && item.fields["sweep"] != nil {
			v := item.fields["sweep"]
			r.tell(CodeWingSweep, v.key, v.at, say(v.key)+" stands beside [wing], which says where the spar stands at the root and at the tip.", "Take it out; the sweep follows.")
		}
	}
}

// wingWeighed refuses what one rib weighs where ribs differ.
func (r *reader) wingWeighed() {
	if t := (tab{r, r.root, ""}).get("mass"); t != nil && t.kind == tableKind && t.fields["weighed"] != nil {
		v := t.fields["weighed"]
		r.tell(CodeWingWeighed, v.key, v.at, "mass.weighed says what one rib weighs, and the ribs of a wing differ.",
			"Write it for the ribs that were weighed, under [[wing.rib]]: ribs = [3] and mass.weighed = { rib = … }.")
	}
}

// wingStations reads where the ribs stand along the span.
func (r *reader) wingStations(t tab, semi float64) []float64 {
	const fix = "Give either spacing = 12 (from the root to the tip), or stations = [0, 10, 22, 34]."
	list, spacing := t.get("stations"), t.get("spacing")
	switch {
	case t.has("stations") && t.has("spacing"):
		later := t.v.fields["stations"]
		if s := t.v.fields["spacing"]; s.at > later.at {
			later = s
		}
		r.tell(CodeWingStations, later.key, later.at, "[wing] gives both stations and a spacing.", fix)
		return nil
	case list != nil:
		return r.spans(t, list, semi, fix)
	case spacing != nil:
		lim := limit{min: 10, max: 50000}
		if semi > 0 {
			lim.max, lim.why = max(semi, 10), ", the semi-span"
		}
		d, ok := t.length("spacing", 0, lim)
		if !ok || semi == 0 {
			return nil
		}
		var out []float64
		for k := 0; float64(float64(k)*d) < semi-sameSpan; k++ {
			out = append(out, float64(float64(k)*d))
		}
		return append(out, semi)
	case !t.has("stations") && !t.has("spacing"):
		r.tell(CodeWingStations, "wing", t.v.at, "[wing] does not say where the ribs stand.", fix)
	}
	return nil
}

// spans reads a growing list of span stations.
func (r *reader) spans(t tab, v *value, semi float64, fix string) []float64 {
	items := v.items
	if v.kind != listKind {
		items = []*value{v}
	}
	if len(items) > mostStations {
		f := r.tell(CodeTooMany, v.key, items[mostStations].at, fmt.Sprintf("There are %d stations; at most %d are read.", len(items), mostStations), "Take stations away.")
		f.Got, f.Limit, f.Unit = float64(len(items)), mostStations, "stations"
		items = items[:mostStations]
	}
	if len(items) == 0 {
		r.tell(CodeWingStations, v.key, v.at, "The list of stations is empty.", fix)
	}
	var out []float64
	for _, item := range items {
		mm, ok := t.quantity(item)
		if !ok {
			continue
		}
		switch {
		case semi > 0 && (mm < 0 || mm > semi+sameSpan):
			f := r.tell(CodeWingStations, item.key, item.at, fmt.Sprintf("A rib at %s stands outside the wing, which reaches from 0 (the root) to %s (the tip).", r.doc.Length(mm), r.doc.Length(semi)),
				"Span stations are measured from the root; mend the station, or semi_span.")
			f.Got, f.Limit, f.Unit = mm, semi, "mm"
		case len(out) > 0 && mm < out[len(out)-1]+sameSpan:
			r.tell(CodeWingStations, item.key, item.at, "The rib at "+r.doc.Length(mm)+" does not stand beyond the one before it.", "Write the stations from the root to the tip, each once.")
		default:
			out = append(out, mm)
		}
	}
	return out
}

// wingTip looks through the section at the tip. It is read by Doc.Tip, at the tip's chord.
func (r *reader) wingTip(t tab, w *Wing) {
	v := t.get("tip")
	if v == nil {
		return
	}
	if v.kind != tableKind {
		t.wrongType(v, "a table", "[wing.tip] on a line of its own, with its keys below")
		return
	}
	r.unknownKeys(v, "wing.tip")
	w.TipGiven = true
}

// wingSpars reads where the spars stand at the tip: at the same share of the chord where the file does not say.
func (r *reader) wingSpars(t tab, w *Wing) {
	for _, s := range r.doc.Spars {
		at := s.At
		if w.TipChord != r.doc.Rib.Chord && r.doc.Rib.Chord > 0 {
			at = s.At / r.doc.Rib.Chord * w.TipChord
		}
		w.TipSpars = append(w.TipSpars, at)
	}
	told := map[int]bool{}
	for _, one := range r.tableList("wing.spar", "spar", t.v) {
		one.missing("name", `name = "front"`)
		one.missing("tip", `tip = "16%"`)
		chord, known := r.chord, r.chordKnown
		r.chord, r.chordKnown = w.TipChord, w.TipChord > 0
		tip := one.station("tip", 0, w.TipChord)
		r.chord, r.chordKnown = chord, known
		v := one.get("name")
		if name, ok := one.text("name", "", `name = "front"`); ok && v != nil {
			i := r.sparOf(v, name, "[[wing.spar]] says where a spar of the file stands at the tip.")
			switch {
			case i < 0:
			case told[i]:
				r.tell(CodeSparDoubled, v.key, v.at, "Spar "+quote(name)+" is given twice under [[wing.spar]].", "Give the place of each spar at the tip once.")
			case tip.ok && one.has("tip"):
				w.TipSpars[i] = tip.mm
				told[i] = true
			}
		}
	}
}

func (r *reader) wingRib(t tab, w *Wing) {
	one := WingRib{}
	n := len(w.Stations)
	one.Ribs = r.numbers(t, "ribs", n, n > 0)
	one.Between = r.numbers(t, "between", n-1, n > 0)
	if v := t.get("at"); v != nil {
		one.At = r.spans(t, v, w.SemiSpan, "Write at = [6, 18].")
	}
	if !t.has("ribs") && !t.has("at") && !t.has("between") {
		r.tell(CodeWingRibs, t.key, t.v.at, "[[wing.rib]] does not say which ribs it is about.",
			`Write ribs = "1, 5-8" (their numbers, from 1 at the root), at = [6, 18] (further ribs, at these stations) or between = "1-8" (further ribs, midway behind each of these).`)
	}
	if t.has("kind") {
		one.Kind = t.choice("kind", defaultKind, ribKinds...)
		if v := t.get("kind"); v != nil && slices.Contains([]string{"nose", "tail", "cut"}, one.Kind) && len(r.doc.Spars) == 0 && !t.has("spar") {
			r.tell(CodeWingKind, v.key, v.at, "A rib of the kind "+quote(one.Kind)+" ends at a spar, and the file has none.", "Give the file its spars, or the rib another kind.")
		}
	}
	if name, ok := t.text("name", "", `name = "R5"`); ok && t.has("name") {
		if v := t.get("name"); !wingName.MatchString(name) {
			r.tell(CodeWingName, v.key, v.at, quote(name)+" cannot be a rib's name: it is written on every part.", "Begin it with a letter, and use at most 12 letters, digits and -.")
		} else {
			one.Name = name
		}
	}
	r.wingCount(t.v)
	for _, key := range t.v.names {
		v := t.v.fields[key]
		isTable := slices.Contains(ofOneRib, key) // of other keys unknownKeys has told
		if isTable && v.kind != brokenKind && v.kind != tableKind && v.kind != listKind {
			t.wrongType(v, "a table", header(key)+" of a rib as [wing.rib."+key+"], or "+key+" = { … }")
		}
		for _, shared := range ofAllRibs[key] {
			if f := v.fields[shared]; f != nil {
				r.tell(CodeKeyUnknown, f.key, f.keyAt, quote(shared)+" of "+header(key)+" is the same for all ribs of the wing.", "Set it under "+header(key)+" of the file.")
			}
		}
	}
	w.Ribs = append(w.Ribs, one)
}

// numbers reads which ribs are meant, such as "1, 5-8". The last may be most, where it is known how many there are.
func (r *reader) numbers(t tab, key string, most int, known bool) []int {
	v := t.get(key)
	if v == nil {
		return nil
	}
	example := key + ` = "1, 5-8"`
	if v.kind != textKind && v.kind != wholeKind {
		t.wrongType(v, "numbers of ribs", example)
		return nil
	}
	var out []int
	for _, word := range strings.Split(v.raw, ",") {
		first, last, isRange := strings.Cut(plainSigns.Replace(strings.TrimSpace(word)), "-")
		a, err := strconv.Atoi(strings.TrimSpace(first))
		b := a
		if isRange && err == nil {
			b, err = strconv.Atoi(strings.TrimSpace(last))
		}
		if err != nil || a < 1 || b < a {
			r.tell(CodeWingRibs, v.key, v.at, quote(word)+" is no number of a rib.", "Write "+example+": the ribs are numbered from 1 at the root.")
			return nil
		}
		if b > most && known {
			f := r.tell(CodeWingRibs, v.key, v.at, fmt.Sprintf("There is no rib %d for %s: the last is %d.", b, say(v.key), most), "The ribs are numbered from 1 at the root, by [wing] stations or spacing.")
			f.Got, f.Limit, f.Unit = float64(b), float64(most), "ribs"
			return nil
		}
		for k := a; k <= min(b, most); k++ {
			out = append(out, k)
		}
	}
	return out
}
