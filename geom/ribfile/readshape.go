package ribfile

import "fmt"

// shape reads what changes a section from equations, and what is given for the ends of any section.
func (r *reader) shape(t tab) {
	s := &r.doc.Section
	s.ClosedTail = t.truth("closed_tail", false)
	s.Thickness = t.percent("thickness", 0, leastThickness, mostThickness, "the chord") / 100
	s.Camber = t.number("camber", defaultCamber, 0, mostCamber, true, "")
	nose, tail := r.share(0.2, "a fifth of the chord"), r.share(0.05, "a twentieth of the chord")
	nose.min, nose.above, tail.min = 0, true, 0
	s.NoseRadius, _ = t.length("nose_radius", 0, nose)
	s.TailThickness, _ = t.length("tail_thickness", 0, tail)
	if !r.hasSource(t) {
		return
	}
	for _, key := range []string{"closed_tail", "thickness", "camber"} {
		if t.has(key) && !t.has("naca") {
			r.tell(CodeSectionKey, join(t.key, key), t.v.fields[key].at, say(join(t.key, key))+" changes a section from equations, and this one is a table.",
				"Take the key out, or give the section by its number: naca = \"4412\".")
		}
	}
	if t.has("nose_radius") && t.has("naca") {
		r.tell(CodeSectionKey, join(t.key, "nose_radius"), t.v.fields["nose_radius"].at, say(join(t.key, "nose_radius"))+" belongs to a table; a section from equations has its nose from them.",
			`Take the key out; "0012-34" is a NACA 0012 with half the plain section's index for its nose.`)
	}
}

func (r *reader) hasSource(t tab) bool {
	for _, key := range sources {
		if t.has(key) {
			return true
		}
	}
	return false
}

// percent reads a share of what of names, in percent.
func (t tab) percent(key string, def, least, most float64, of string) float64 {
	v := t.get(key)
	if v == nil {
		return def
	}
	n, isShare := 0.0, false
	if v.kind == textKind {
		var err error
		if n, isShare, err = parseShare(v.raw); err != nil {
			t.unreadable(v, err)
			return def
		}
	}
	if !isShare {
		t.wrongType(v, "a share of "+of, key+` = "13%"`)
		return def
	}
	if n >= least && n <= most {
		return n
	}
	f := t.r.tell(CodeSizeImpossible, v.key, v.at, fmt.Sprintf("%s is %s%%; it must be from %s%% to %s%% of %s.", say(v.key), decimals(n, 4), decimals(least, 0), decimals(most, 0), of),
		"Write a share between these.")
	f.Got, f.Limit, f.Unit = n, most, "%"
	if n < least {
		f.Limit = least
	}
	return def
}
