package gcode_test

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"math/rand"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"ribwright/export/gcode"
	"ribwright/geom"
	"ribwright/geom/outside"
)

// program is a drilling program with n random holes.
func program(seed int64, n int, inch bool) gcode.Program {
	r := rand.New(rand.NewSource(seed))
	p := gcode.Program{Remarks: []string{"Wing rib (test) äöü", "MSG, not a message"}, Inch: inch, Safe: 10, Depth: 2.5, Feed: 100, Diameter: 6.35}
	for i := range n {
		p.Holes = append(p.Holes, gcode.Hole{At: geom.Pt{X: 600 * r.Float64(), Y: 300 * r.Float64()}, Name: fmt.Sprintf("U%d+L2", i+1)})
	}
	return p
}

func text(t *testing.T, p gcode.Program) string {
	t.Helper()
	var b bytes.Buffer
	if err := p.Write(&b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// machine is the state of an interpreter after NISTIR 6556, as far as drilling needs it.
type machine struct {
	unit      float64 // mm in one of the program's units; 0: none set
	modes     map[string]bool
	cycle     bool
	pos       [3]float64
	z, r, f   float64
	drilled   []geom.Pt
	depths    []float64
	ended     bool
	travelLow float64 // lowest Z of a move across
}

var word = regexp.MustCompile(`^([A-Z])([-+]?\d*\.?\d+)$`)

// run interprets a program line by line; what NISTIR 6556 does not allow, or a drilling program does not need, is an error.
func run(src string) (*machine, error) {
	m := &machine{modes: map[string]bool{}, pos: [3]float64{0, 0, 50}, travelLow: math.Inf(1)}
	for i, line := range strings.Split(strings.TrimSuffix(src, "\n"), "\n") {
		if err := m.line(line); err != nil {
			return m, fmt.Errorf("line %d, %q: %w", i+1, line, err)
		}
	}
	if !m.ended {
		return m, fmt.Errorf("no end") // 3.1: a file ends with M2 or M30, or stands between percent signs
	}
	return m, nil
}

func (m *machine) line(line string) error {
	if m.ended {
		return fmt.Errorf("a line behind the end")
	}
	if len(line) > 256 {
		return fmt.Errorf("longer than 256 signs")
	}
	for _, c := range line {
		if c < ' ' || c > '~' {
			return fmt.Errorf("%q is not ASCII", c)
		}
	}
	for strings.Contains(line, "(") {
		a, b := strings.Index(line, "("), strings.Index(line, ")")
		if b < a || strings.Contains(line[a+1:b], "(") {
			return fmt.Errorf("comments must not nest") // 3.3.4
		}
		if strings.HasPrefix(strings.ToUpper(strings.TrimSpace(line[a+1:b])), "MSG,") {
			return fmt.Errorf("a message")
		}
		line = line[:a] + line[b+1:]
	}
	vals, codes := map[string]float64{}, []string{}
	for _, w := range strings.Fields(line) {
		g := word.FindStringSubmatch(w)
		if g == nil {
			return fmt.Errorf("%q is no word", w)
		}
		v, err := strconv.ParseFloat(g[2], 64)
		if err != nil {
			return err
		}
		if g[1] == "G" || g[1] == "M" {
			codes = append(codes, g[1]+strconv.FormatFloat(v, 'g', -1, 64))
			continue
		}
		if _, twice := vals[g[1]]; twice {
			return fmt.Errorf("%s twice", g[1]) // 3.3.2
		}
		vals[g[1]] = v
	}
	groups := map[string]string{}
	motion := ""
	for _, c := range codes {
		group := map[string]string{"G0": "motion", "G80": "motion", "G81": "motion", "G17": "plane", "G90": "distance", "G94": "feed", "G20": "unit", "G21": "unit",
			"G40": "radius", "G49": "length", "G98": "return", "M0": "stop", "M2": "stop"}[c] // table 5
		if group == "" {
			return fmt.Errorf("%s is no code of a drilling program", c)
		}
		if groups[group] != "" {
			return fmt.Errorf("%s and %s are of one group", groups[group], c) // 3.4
		}
		groups[group] = c
		m.modes[c] = true
		switch c {
		case "G20":
			m.unit = 25.4
		case "G21":
			m.unit = 1
		case "G0", "G80", "G81":
			motion = c
		case "M2":
			m.ended = true
		}
	}
	if motion != "" {
		m.cycle = motion == "G81"
	}
	return m.move(vals, motion)
}

func (m *machine) move(vals map[string]float64, motion string) error {
	if f, ok := vals["F"]; ok {
		m.f = f * m.unit
	}
	axes := false
	for _, a := range []string{"X", "Y", "Z", "R"} {
		_, has := vals[a]
		axes = axes || has
	}
	if !axes {
		if motion == "G0" || motion == "G81" {
			return fmt.Errorf("%s without axis words", motion)
		}
		return nil
	}
	for _, need := range []string{"G17", "G40", "G49", "G80", "G90", "G94"} {
		if !m.modes[need] {
			return fmt.Errorf("a move before %s", need)
		}
	}
	if m.unit == 0 {
		return fmt.Errorf("a move without a unit")
	}
	to := m.pos
	for i, a := range []string{"X", "Y"} {
		if v, ok := vals[a]; ok {
			to[i] = v * m.unit
		}
	}
	if !m.cycle {
		if v, ok := vals["Z"]; ok {
			to[2] = v * m.unit
		}
		if to[0] != m.pos[0] || to[1] != m.pos[1] {
			m.travelLow = min(m.travelLow, m.pos[2], to[2])
		}
		m.pos = to
		return nil
	}
	if v, ok := vals["Z"]; ok {
		m.z = v * m.unit
	}
	if v, ok := vals["R"]; ok {
		m.r = v * m.unit
	}
	switch { // 3.5.16
	case m.f <= 0:
		return fmt.Errorf("a cycle without feed")
	case m.r < m.z:
		return fmt.Errorf("R below Z")
	case m.pos[2] < m.r:
		return fmt.Errorf("a cycle that begins below R")
	}
	m.travelLow = min(m.travelLow, m.pos[2])
	m.pos[0], m.pos[1] = to[0], to[1] // and with G98 back to the height it came from
	m.drilled, m.depths = append(m.drilled, geom.Pt{X: to[0], Y: to[1]}), append(m.depths, m.z)
	return nil
}

// check holds what a program drills against its holes, within half of its last digit.
func check(t *testing.T, p gcode.Program, drilled []geom.Pt) {
	t.Helper()
	if len(drilled) != len(p.Holes) {
		t.Fatalf("%d holes drilled, want %d", len(drilled), len(p.Holes))
	}
	for i, h := range p.Holes {
		if math.Abs(drilled[i].X-h.At.X) > 0.0013 || math.Abs(drilled[i].Y-h.At.Y) > 0.0013 {
			t.Errorf("hole %d at %v, want %v", i+1, drilled[i], h.At)
		}
	}
}

func TestProgram(t *testing.T) {
	for seed := range int64(20) {
		p := program(seed, 1+int(seed)*7, seed%2 == 1)
		m, err := run(text(t, p))
		if err != nil {
			t.Fatal(err)
		}
		check(t, p, m.drilled)
		if m.travelLow < p.Safe-0.002 || m.pos[2] < p.Safe-0.002 || m.cycle || math.Abs(m.f-p.Feed) > 0.01 {
			t.Errorf("seed %d: lowest way across %g, end at %v, in a cycle: %v, feed %g", seed, m.travelLow, m.pos, m.cycle, m.f)
		}
		if slices.ContainsFunc(m.depths, func(z float64) bool { return math.Abs(z+p.Depth) > 0.002 }) {
			t.Errorf("seed %d: depths %v, want %g", seed, m.depths, -p.Depth)
		}
	}
	for _, bad := range []gcode.Program{{}, {Safe: 5, Depth: -1, Feed: 100}, {Safe: 5, Depth: 1, Feed: math.NaN()}} {
		if bad.Write(io.Discard) == nil {
			t.Errorf("%+v was written", bad)
		}
	}
	var b bytes.Buffer
	if err := (gcode.Program{Safe: 5, Depth: 1, Feed: 100}).Write(&b); err != nil || strings.Contains(b.String(), "G81") {
		t.Errorf("no holes: %v\n%s", err, b.String())
	}
}

// TestLinuxCNC runs programs through the stand-alone interpreter of LinuxCNC (package linuxcnc-uspace).
func TestLinuxCNC(t *testing.T) {
	rs274 := outside.Optional(t, "rs274")
	for _, inch := range []bool{false, true} {
		p := program(3, 40, inch)
		file := outside.File(t, "holes.ngc", []byte(text(t, p)))
		out := outside.Run(t, rs274, "-g", file)
		if os.Getenv("SHOW") != "" {
			t.Log(out)
		}
		unit := 1.0
		if inch {
			unit = 25.4
		}
		// A hole is where the drill is fed to the depth.
		var drilled []geom.Pt
		for _, m := range regexp.MustCompile(`STRAIGHT_FEED\(([-\d.]+), ([-\d.]+), ([-\d.]+)`).FindAllStringSubmatch(out, -1) {
			var v [3]float64
			for i := range v {
				v[i], _ = strconv.ParseFloat(m[i+1], 64)
			}
			if math.Abs(v[2]*unit+p.Depth) < 0.01 {
				drilled = append(drilled, geom.Pt{X: v[0] * unit, Y: v[1] * unit})
			}
		}
		check(t, p, drilled)
		if !strings.Contains(out, "PROGRAM_END") {
			t.Errorf("no end:\n%s", out)
		}
	}
}
