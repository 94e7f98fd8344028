package ribfile

import (
	"slices"
	"strings"
)

// span is a bay's clear length, for comparing bays.
type span struct{ from, to float64 }

func (r *reader) bays(list []tab) {
	var spans []span
	for _, t := range list {
		b, s, ok := r.bay(t)
		r.doc.Bays = append(r.doc.Bays, b)
		if !ok {
			continue
		}
		if s.from >= s.to {
			r.tell(CodeBayBackwards, t.key, t.v.at, "The bay runs from "+r.far(s.from)+" to "+r.far(s.to)+": there is nothing between.", "Write from before to, nose to tail.")
			continue
		}
		r.acrossSpar(t, b, s)
		for _, other := range spans {
			if min(s.to, other.to)-max(s.from, other.from) > 1e-6 {
				r.tell(CodeBayOverlap, t.key, t.v.at, "The bay from "+r.far(s.from)+" to "+r.far(s.to)+" overlaps the one from "+r.far(other.from)+" to "+r.far(other.to)+".",
					"Let each bay begin where the last one ends.")
				break
			}
		}
		spans = append(spans, s)
	}
}

func (r *reader) bay(t tab) (b Bay, s span, ok bool) {
	t.missing("from", `from = "front"`)
	t.missing("to", `to = "rear"`)
	from, fromOK := r.support(t, "from", &b.From, true)
	to, toOK := r.support(t, "to", &b.To, false)
	b.Pattern = t.choice("pattern", "warren", "warren", "pratt", "uprights", "none")
	if b.Pattern != "none" {
		t.missing("panels", "panels = 8")
	}
	b.Panels = t.whole("panels", 0, 1, 100, "panels")
	b.Start = t.choice("start", defaultStart, "upper", "lower")
	return b, span{from, to}, fromOK && toOK
}

// support reads one end of a bay and the station where the bay's clear length begins or ends there.
func (r *reader) support(t tab, key string, s *Support, isFrom bool) (mm float64, ok bool) {
	v := t.get(key)
	if v == nil {
		return 0, false
	}
	text := strings.TrimSpace(v.raw)
	if v.kind != textKind || startsNumber(text) {
		if v.kind != textKind && v.kind != wholeKind && v.kind != decimalKind {
			t.wrongType(v, "a support", `"front" (a spar's name), "nose", "tail" or a station such as "30%"`)
			return 0, false
		}
		place := t.stationOf(v, v.raw, r.aft)
		s.Kind, s.Station = "station", place.mm
		return place.mm, place.ok && r.clearOfSpars(v, place)
	}
	switch text {
	case "nose":
		s.Kind = "nose"
		if !r.doc.Nose.Present {
			r.tell(CodeBlockMissing, v.key, v.at, "The rib has no nose block for the bay to stand against.", `Write block_to = "5%" under [nose], or let the bay begin at a station.`)
			return 0, false
		}
		return r.ends[0].mm, r.ends[0].ok
	case "tail":
		s.Kind = "tail"
		if !r.doc.Tail.Present { // the bay ends where the caps meet; the layout knows where that is
			return r.aft, r.chordKnown
		}
		return r.ends[1].mm, r.ends[1].ok
	}
	i := r.sparOf(v, text, `Or write "nose", "tail" or a station such as "30%".`)
	if i < 0 {
		return 0, false
	}
	s.Kind, s.Spar = "spar", i
	p := r.spars[i]
	if isFrom {
		return p.aft, p.sized
	}
	return p.fore, p.sized
}

// startsNumber tells a station from a name.
func startsNumber(s string) bool {
	if s == "" {
		return true
	}
	first, _ := strings.CutPrefix(plainSigns.Replace(s), " ")
	return strings.ContainsAny(first[:min(1, len(first))], "0123456789.-+")
}

// sparOf finds a spar by name, or tells that there is none and returns −1.
func (r *reader) sparOf(v *value, name, also string) int {
	var names []string
	nameless := false
	for i, p := range r.spars {
		if !p.nameless && p.name == name {
			return i
		}
		if !p.nameless && !slices.Contains(names, p.name) {
			names = append(names, p.name)
		}
		nameless = nameless || p.nameless
	}
	if nameless { // it may be this one; its name is told of already
		return -1
	}
	fix := "The file has no spars."
	if near := nearest(name, names); near != "" {
		fix = "Did you mean " + quote(near) + "?"
	} else if len(names) > 0 {
		fix = "The file has " + choices(names[:min(len(names), 8)]) + "."
	}
	r.tell(CodeSparUnknown, v.key, v.at, "There is no spar "+quote(name)+".", strings.TrimSpace(fix+" "+also))
	return -1
}

// clearOfSpars tells of a station inside a spar's opening. Where a spar that leans stands on a cap, the layout knows.
func (r *reader) clearOfSpars(v *value, s station) bool {
	for _, p := range r.spars {
		if p.sized && !p.leans && s.ok && s.mm > p.fore && s.mm < p.aft {
			r.tell(CodeStationInSpar, v.key, v.at, say(v.key)+" stands at "+r.far(s.mm)+", inside the opening for spar "+quote(p.name)+" ("+r.far(p.fore)+" to "+r.far(p.aft)+").",
				"Name the spar instead, or move the station.")
			return false
		}
	}
	return true
}

func (r *reader) acrossSpar(t tab, b Bay, s span) {
	for i, p := range r.spars {
		isEnd := b.From.Kind == "spar" && b.From.Spar == i || b.To.Kind == "spar" && b.To.Spar == i
		if p.sized && !isEnd && b.Pattern != "none" && p.at.mm > s.from && p.at.mm < s.to {
			r.tell(CodeBayAcrossSpar, t.key, t.v.at, "The bay from "+r.far(s.from)+" to "+r.far(s.to)+" runs across spar "+quote(p.name)+" at "+r.far(p.at.mm)+".",
				"End the bay at the spar, and begin another one behind it.")
			return
		}
	}
}

func (r *reader) linesOf(list []tab) {
	for _, t := range list {
		t.missing("from", `from = "lower rear aft"`)
		t.missing("to", `to = "upper 75%"`)
		var l Line
		from := r.point(t, "from", &l.From)
		to := r.point(t, "to", &l.To)
		if from && to && l.From.Side == l.To.Side {
			r.tell(CodeLineSameCap, t.key, t.v.at, "The stick begins and ends on the "+l.From.Side+" cap.", "A stick runs from one cap to the other: mend from or to.")
		}
		r.doc.Lines = append(r.doc.Lines, l)
	}
}

const pointFix = `Write the cap and a place on it: "lower rear aft" (a spar and its fore or aft face), or "upper 75%".`

// point reads a place on a cap. ok is false where a finding was given.
func (r *reader) point(t tab, key string, p *Point) (ok bool) {
	p.Spar = -1
	v := t.get(key)
	if v == nil {
		return false
	}
	if v.kind != textKind {
		t.wrongType(v, "a place on a cap", `"lower rear aft" or "upper 75%"`)
		return false
	}
	words := strings.Fields(v.raw)
	if len(words) < 2 || (words[0] != "upper" && words[0] != "lower") {
		r.tell(CodePointUnreadable, v.key, v.at, quote(v.raw)+" is no place on a cap.", pointFix)
		return false
	}
	p.Side = words[0]
	rest := strings.Join(words[1:], " ")
	if startsNumber(rest) {
		s := t.stationOf(v, rest, r.aft)
		p.Station = s.mm
		return s.ok && r.clearOfSpars(v, s)
	}
	face := words[len(words)-1]
	if len(words) < 3 || (face != "fore" && face != "aft") {
		r.tell(CodePointUnreadable, v.key, v.at, quote(v.raw)+" does not say which face of the spar.", `Write "fore" or "aft" at its end: `+quote(v.raw+" aft")+".")
		return false
	}
	p.Aft = face == "aft"
	p.Spar = r.sparOf(v, strings.Join(words[1:len(words)-1], " "), pointFix)
	return p.Spar >= 0
}
