package ribfile

import (
	"math"
	"regexp"
	"slices"
	"strings"
)

// sparPlace is what bays, lines and blocks need to know of a spar while the file is read.
type sparPlace struct {
	name      string
	nameless  bool // no name, or one that could not be read
	at        station
	sized     bool    // fore and aft may be compared
	fore, aft float64 // on the chord line; of a swept spar by its own width alone: how thick the rib is comes later
	leans     bool    // so that its opening stands elsewhere off the chord line
	v         *value
}

var (
	sparName = regexp.MustCompile(`^[A-Za-z][A-Za-z0-9_-]*$`)
	reserved = []string{"nose", "tail", "upper", "lower", "fore", "aft"}
)

// least is the smallest depth or width of a stick, cap or spar, mm: below it a unit was mistaken.
const least = 0.5

func (r *reader) rib(t tab) {
	t.missing("chord", `chord = "55 in"`)
	chord, ok := t.length("chord", 0, limit{min: 50, max: 10000})
	r.chord, r.chordKnown = chord, ok && t.has("chord")
	if !r.chordKnown {
		r.chord = 1000
	}
	r.aft = r.chord
	te := station{r.chord, true}
	if !namesFace(t.get("trailing_edge")) {
		te = t.station("trailing_edge", r.chord, r.chord)
	}
	if te.ok {
		r.aft = te.mm
		if te.mm < 0.05*r.chord {
			v := t.get("trailing_edge")
			f := r.tell(CodeSizeImpossible, v.key, v.at, "rib.trailing_edge cuts the rib off at "+r.far(te.mm)+"; at least a twentieth of the chord must be left.",
				`It is measured from the leading edge: "100%" leaves the rib whole.`)
			f.Got, f.Limit, f.Unit = te.mm, 0.05*r.chord, "mm"
			r.aft = r.chord
		}
	}
	r.doc.Rib = Rib{Chord: chord, Count: t.whole("count", defaultCount, 1, 10000, "ribs")}
	if r.chordKnown {
		r.doc.Rib.TrailingEdge = r.aft
	}
}

// namesFace tells "front fore" from a station.
func namesFace(v *value) bool {
	return v != nil && v.kind == textKind && !startsNumber(strings.TrimSpace(v.raw))
}

// cutOff reads where a rib is cut off at a spar, and where it begins behind the leading edge.
func (r *reader) cutOff(t tab) {
	d := &r.doc.Rib
	from, to := station{0, true}, station{r.aft, r.chordKnown}
	if namesFace(t.get("trailing_edge")) {
		to = r.faceOf(t.get("trailing_edge"), &d.TrailingAt)
	}
	v := t.get("leading_edge")
	if namesFace(v) {
		from = r.faceOf(v, &d.LeadingAt)
	} else if from = t.station("leading_edge", 0, r.aft); from.ok && r.chordKnown {
		d.LeadingEdge = from.mm
	}
	if least := 0.05 * r.chord; from.ok && to.ok && to.mm-from.mm < least && (t.has("leading_edge") || d.TrailingAt.Named) {
		key := "leading_edge"
		if !t.has(key) {
			key = "trailing_edge"
		}
		v := t.v.fields[key]
		f := r.tell(CodeRibCut, v.key, v.at, "The rib begins at "+r.far(from.mm)+" and is cut off at "+r.far(to.mm)+"; at least a twentieth of the chord must be left.",
			"Both are measured from the leading edge, or name a face of a spar: \"rear aft\".")
		f.Got, f.Limit, f.Unit = to.mm-from.mm, least, "mm"
	}
}

// faceOf reads a spar's name and its face, and returns where that crosses the chord line.
func (r *reader) faceOf(v *value, f *Face) station {
	words := strings.Fields(v.raw)
	face := ""
	if len(words) > 0 {
		face = words[len(words)-1]
	}
	if len(words) < 2 || face != "fore" && face != "aft" {
		r.tell(CodePointUnreadable, v.key, v.at, say(v.key)+": "+quote(v.raw)+" is neither a station nor a face of a spar.",
			`Write a station such as "64%", or a spar and its face: "rear aft".`)
		return station{}
	}
	i := r.sparOf(v, strings.Join(words[:len(words)-1], " "), `Or write a station such as "64%".`)
	if i < 0 {
		return station{}
	}
	*f = Face{Named: true, Spar: i, Aft: face == "aft"}
	if p := r.spars[i]; f.Aft {
		return station{p.aft, p.sized}
	}
	return station{r.spars[i].fore, r.spars[i].sized}
}

// share is a limit of the given part of the chord, where the chord is known.
func (r *reader) share(part float64, why string) limit {
	if !r.chordKnown {
		return limit{min: least, max: 10000 * part}
	}
	return limit{min: least, max: r.chord * part, why: ", " + why}
}

func (r *reader) strips(c, s tab) {
	d, quarter := r.doc, r.share(0.25, "a quarter of the chord")
	d.Cap.Depth, _ = c.length("depth", defaultCapDepth, quarter)
	d.Cap.Width, _ = c.length("width", defaultCapWidth, quarter)
	d.Cap.From = c.station("from", 0, r.aft).mm
	d.Cap.Material = c.material("material", defaultWood, Woods)
	d.Stick.Depth, _ = s.length("depth", d.Cap.Depth, quarter)
	d.Stick.Width, _ = s.length("width", d.Cap.Width, quarter)
	d.Stick.Material = s.material("material", d.Cap.Material, Woods)
	d.Stick.Plies = s.whole("plies", defaultPlies, 1, 3, "strips")
	d.Stick.Meet = s.choice("meet", defaultMeet, "butt", "mitre")
}

func (r *reader) readSpars(list []tab) {
	for _, t := range list {
		p := r.sparPlace(t)
		r.sparOrder(p)
		r.spars = append(r.spars, p)
	}
}

func (r *reader) sparPlace(t tab) sparPlace {
	t.missing("name", `name = "front"`)
	t.missing("at", `at = "14%"`)
	t.missing("width", `width = "3/4 in"`)
	p := sparPlace{v: t.v}
	name, ok := t.text("name", "", `name = "front"`)
	p.name, p.nameless = name, !ok || !t.has("name")
	if v := t.get("name"); !p.nameless {
		r.sparName(v, name)
	}
	clearance, clearOK := t.length("clearance", defaultClearance, limit{min: 0, max: 25})
	third := r.share(1.0/3, "a third of the chord less the clearances")
	third.max = max(third.max-2*clearance, least)
	width, widthOK := t.length("width", 0, third)
	p.at = t.station("at", 0, r.aft)
	p.at.ok = p.at.ok && t.has("at")
	p.sized = p.at.ok && clearOK && widthOK && t.has("width") && r.chordKnown
	tilt, sweep := t.degrees("tilt", mostTilt), t.degrees("sweep", mostSweep)
	p.leans = tilt != 0
	half := (float64(width/math.Cos(sweep)/2) + clearance) / math.Cos(tilt)
	p.fore, p.aft = p.at.mm-half, p.at.mm+half
	r.doc.Spars = append(r.doc.Spars, Spar{Name: name, At: p.at.mm, Width: width, Clearance: clearance, Tilt: tilt, Sweep: sweep,
		Posts: t.truth("posts", defaultPosts)})
	if p.sized && (p.fore < 0 || p.aft > r.aft) {
		v := t.get("at")
		end := "the leading edge"
		if p.fore >= 0 {
			end = "the rib's end"
		}
		f := r.tell(CodeSparOutside, v.key, v.at, "The opening for spar "+quote(name)+" runs from "+r.far(p.fore)+" to "+r.far(p.aft)+" and breaks out at "+end+".",
			"Move the spar, or make it narrower; at is its centre.")
		f.Got, f.Limit, f.Unit = p.aft, r.aft, "mm"
		if p.fore < 0 {
			f.Got, f.Limit = p.fore, 0
		}
		p.sized = false
	}
	return p
}

func (r *reader) sparName(v *value, name string) {
	switch {
	case slices.Contains(reserved, strings.ToLower(name)):
		r.tell(CodeSparName, v.key, v.at, "A spar cannot be called "+quote(name)+": the word has a meaning of its own in bays and lines.", `Call it "front", "rear" or "main".`)
	case !sparName.MatchString(name):
		r.tell(CodeSparName, v.key, v.at, "The spar's name "+quote(name)+" cannot be used in bays and lines.", "Begin it with a letter, and use only letters, digits, - and _.")
	}
	for _, other := range r.spars {
		if !other.nameless && other.name == name {
			r.tell(CodeSparDoubled, v.key, v.at, "Two spars are called "+quote(name)+".", "Give each spar a name of its own.")
			return
		}
	}
}

// sparOrder holds a spar against the one before it in the file.
func (r *reader) sparOrder(p sparPlace) {
	for i := len(r.spars) - 1; i >= 0; i-- {
		q := r.spars[i]
		if !q.at.ok || !p.at.ok {
			continue
		}
		v := p.v.fields["at"]
		switch {
		case p.at.mm < q.at.mm:
			r.tell(CodeSparOrder, v.key, v.at, "Spar "+quote(p.name)+" at "+r.far(p.at.mm)+" stands before spar "+quote(q.name)+" at "+r.far(q.at.mm)+", but is written after it.",
				"Write the spars in order, nose to tail.")
		case p.sized && q.sized && p.fore < q.aft || p.at.mm == q.at.mm:
			f := r.tell(CodeSparOverlap, v.key, v.at, "The openings of spars "+quote(q.name)+" and "+quote(p.name)+" overlap.", "Move them apart, or make them narrower.")
			if p.sized && q.sized {
				f.Got, f.Limit, f.Unit = p.at.mm-q.at.mm, (q.aft-q.at.mm)+(p.at.mm-p.fore), "mm"
				f.Message = "Spars " + quote(q.name) + " and " + quote(p.name) + " stand " + r.doc.Length(f.Got) + " apart; with their clearances they need " + r.doc.Length(f.Limit) + "."
			}
		}
		return
	}
}

func (r *reader) blocks(nose, tail tab) {
	r.ends[0] = r.block(nose, "block_to", &r.doc.Nose, `block_to = "5%"`)
	r.ends[1] = r.block(tail, "block_from", &r.doc.Tail, `block_from = "94%"`)
	n, t := r.ends[0], r.ends[1]
	r.capFrom(n)
	if n.ok && n.mm <= 0 {
		r.emptyBlock(nose, "block_to", "The nose block ends at the leading edge.")
	}
	if t.ok && t.mm >= r.aft {
		r.emptyBlock(tail, "block_from", "The tail block begins where the rib ends.")
	}
	if n.ok && t.ok && n.mm >= t.mm {
		v := tail.get("block_from")
		r.tell(CodeBlockOverlap, v.key, v.at, "The tail block begins at "+r.far(t.mm)+", before the nose block ends at "+r.far(n.mm)+".", "Both are measured from the leading edge.")
	}
	for _, p := range r.spars {
		if !p.sized {
			continue
		}
		if n.ok && n.mm > p.fore {
			r.blockInSpar(nose.get("block_to"), "The nose block ends at "+r.far(n.mm), p, p.fore, n.mm)
			break
		}
	}
	for i := len(r.spars) - 1; i >= 0; i-- {
		if p := r.spars[i]; p.sized && t.ok && t.mm < p.aft {
			r.blockInSpar(tail.get("block_from"), "The tail block begins at "+r.far(t.mm), p, p.aft, t.mm)
			break
		}
	}
}

// block reads one block; ok is false where there is none, or its station cannot be compared.
// capFrom holds that caps which do not reach the leading edge begin on the nose block.
func (r *reader) capFrom(block station) {
	v := (tab{r, r.root, ""}).get("cap")
	if r.doc.Cap.From == 0 || v == nil || v.kind != tableKind || v.fields["from"] == nil {
		return
	}
	v = v.fields["from"]
	const fix = "Let the nose block (block_to under [nose]) reach behind it, so that the caps lie on it, or leave from out."
	switch {
	case !r.doc.Nose.Present:
		r.tell(CodeCapFrom, v.key, v.at, "The caps begin at "+r.far(r.doc.Cap.From)+", and no nose block carries their ends.", fix)
	case block.ok && r.doc.Cap.From >= block.mm:
		f := r.tell(CodeCapFrom, v.key, v.at, "The caps begin at "+r.far(r.doc.Cap.From)+", behind the nose block, which ends at "+r.far(block.mm)+".", fix)
		f.Got, f.Limit, f.Unit = r.doc.Cap.From, block.mm, "mm"
	}
}

func (r *reader) block(t tab, key string, b *Block, example string) station {
	b.Material = t.material("material", r.doc.Cap.Material, Woods)
	if t.has("material") {
		t.missing(key, example)
	}
	if !t.has(key) {
		return station{}
	}
	s := t.station(key, 0, r.aft)
	b.Present, b.Station = true, s.mm
	return s
}

func (r *reader) emptyBlock(t tab, key, message string) {
	v := t.get(key)
	r.tell(CodeStationOutside, v.key, v.at, message, "Leave "+key+" out where there is no block.")
}

func (r *reader) blockInSpar(v *value, message string, p sparPlace, limit, got float64) {
	f := r.tell(CodeBlockOverlap, v.key, v.at, message+", beyond the face of the opening for spar "+quote(p.name)+" at "+r.far(limit)+".", "Make the block shorter, or move the spar.")
	f.Got, f.Limit, f.Unit = got, limit, "mm"
}
