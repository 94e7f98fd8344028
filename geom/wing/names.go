package wing

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// Ribs names the ribs that a kind's drawing is for: "R2 to R5, R9; left and right; R3 is called strut".
func (k Kind) Ribs() string {
	var names []string
	for i := 0; i < len(k.Places); {
		first := k.Places[i].Rib
		last, n := first, 1
		for i++; i < len(k.Places) && follows(last, k.Places[i].Rib); i++ {
			if k.Places[i].Rib != last {
				last, n = k.Places[i].Rib, n+1
			}
		}
		switch n {
		case 1:
			names = append(names, first)
		case 2:
			names = append(names, first, last)
		default:
			names = append(names, first+" to "+last)
		}
	}
	out := strings.Join(names, ", ")
	if len(k.Places) > 1 && k.Places[1].Hand == Right {
		out += "; left and right"
	}
	return out + k.others()
}

// mostNames is how many names a title tells; the list of the wing's ribs has them all.
const mostNames = 6

// others says which ribs have names that the kind does not go by: "; R3, R7 also called strut".
func (k Kind) others() string {
	if k.called() != "" {
		return ""
	}
	var names []string
	ribs := map[string][]string{}
	for _, p := range k.Places {
		if p.Called == "" || slices.Contains(ribs[p.Called], p.Rib) {
			continue
		}
		if ribs[p.Called] == nil {
			names = append(names, p.Called)
		}
		ribs[p.Called] = append(ribs[p.Called], p.Rib)
	}
	out := ""
	for _, n := range names[:min(len(names), mostNames)] {
		out += "; " + strings.Join(ribs[n], ", ") + " also called " + n
	}
	if more := len(names) - mostNames; more > 0 {
		out += fmt.Sprintf("; %d more have names of their own", more)
	}
	return out
}

// called returns the name that the builder gave all ribs of the kind; empty where they have none, or not one.
func (k Kind) called() string {
	name := k.Places[0].Called
	if slices.ContainsFunc(k.Places, func(p Place) bool { return p.Called != name }) {
		return ""
	}
	return name
}

// also lists what ribs of the kind are called besides the kind's name.
func (k Kind) also() []string {
	var out []string
	told := map[string]bool{k.Name: true, "": true}
	for _, p := range k.Places {
		for _, n := range []string{p.Rib, p.Called} {
			if !told[n] {
				told[n] = true
				out = append(out, n)
			}
		}
	}
	return out
}

// follows reports whether a rib is the same as another one, or the next of its letter.
func follows(a, b string) bool {
	m, _ := strconv.Atoi(a[1:])
	n, _ := strconv.Atoi(b[1:])
	return a[0] == b[0] && n-m <= 1
}
