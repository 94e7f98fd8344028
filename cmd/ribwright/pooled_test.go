package main

import (
	"encoding/csv"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// rowsOf reads a list that was written, by the names of its columns.
func rowsOf(t *testing.T, path string) []map[string]string {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	all, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var out []map[string]string
	for _, r := range all[1:] {
		row := map[string]string{}
		for i, name := range all[0] {
			row[name] = r[i]
		}
		out = append(out, row)
	}
	return out
}

func number(t *testing.T, s string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// pooled is what the recount reads of a report.
type pooled struct {
	Ribs []struct {
		Name     string
		Count    int
		Sticks   []struct{ ID string }
		Caps     []any
		Gussets  []struct{ Faces int }
		Adhesive struct {
			Mixed float64 `json:"mixed_g"`
		}
		Mass struct {
			Total float64 `json:"total"`
		} `json:"mass_g"`
	}
	Totals struct {
		Ribs, Sticks, Gussets int
		Adhesive              struct {
			Mixed float64 `json:"mixed_g"`
		}
		Mass struct {
			Total float64 `json:"total"`
		} `json:"mass_g"`
	}
	Batches []struct {
		Side, Sides int
		Ribs        string
		Need        float64 `json:"need_g"`
	}
}

// TestPooled counts the set again from the files alone: every stick, cap, plate and side of every rib is in the bars, on
// the sheets and in the batches as often as it is built, and the sums are those of the ribs.
func TestPooled(t *testing.T) {
	for name, path := range map[string]string{
		"five kinds": demoFile(t, "water-rail.toml"),
		"tapered":    wingFile(t, "\n[wing]\nsemi_span = 3000\ntip_chord = 1000\nwashout = 2\nspacing = 1000\n"),
	} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			if code, _, msg := call("build", path, "-o", dir); code != exitOK {
				t.Fatal(msg)
			}
			data, err := os.ReadFile(filepath.Join(dir, "report.json"))
			if err != nil {
				t.Fatal(err)
			}
			var r pooled
			if err := json.Unmarshal(data, &r); err != nil {
				t.Fatal(err)
			}
			r.recount(t)
			r.bars(t, rowsOf(t, filepath.Join(dir, "cut-list.csv")), rowsOf(t, filepath.Join(dir, "bars.csv")), rowsOf(t, filepath.Join(dir, "bar-cuts.csv")))
			r.sheets(t, rowsOf(t, filepath.Join(dir, "plates.csv")), rowsOf(t, filepath.Join(dir, "sheets.csv")))
			r.batches(t, rowsOf(t, filepath.Join(dir, "coupons.csv")))
		})
	}
}

func (r pooled) recount(t *testing.T) {
	var ribs, sticks, plates int
	var mixed, mass float64
	for _, k := range r.Ribs {
		ribs += k.Count
		sticks += k.Count * len(k.Sticks)
		for _, g := range k.Gussets {
			plates += k.Count * g.Faces
		}
		mixed += float64(k.Count) * k.Adhesive.Mixed
		mass += float64(k.Count) * k.Mass.Total
	}
	s := r.Totals
	if ribs != s.Ribs || sticks != s.Sticks || plates != s.Gussets || math.Abs(mixed-s.Adhesive.Mixed) > 1e-4 || math.Abs(mass-s.Mass.Total) > 1e-3 {
		t.Errorf("%d ribs, %d sticks, %d plates, %.5f g mixed, %.4f g; the totals say %+v", ribs, sticks, plates, mixed, mass, s)
	}
}

// bars holds what is sawn against the cut list, where the first stick of a row stands for all; and that the pieces of a
// bar lie one behind the other within it.
func (r pooled) bars(t *testing.T, list, bars, cuts []map[string]string) {
	count := map[string]int{}
	length := map[string]float64{}
	for _, b := range bars {
		count[b["bar"]] = int(number(t, b["count"]))
		for unit, mm := range map[string]float64{"length_mm": 1, "length_in": 25.4} {
			if b[unit] != "" {
				length[b["bar"]] = number(t, b[unit]) * mm
			}
		}
	}
	sawn := map[string]int{}
	end := map[string]float64{}
	for _, c := range cuts {
		sawn[strings.TrimSuffix(c["piece"], "…")] += count[c["bar"]]
		for _, unit := range [2]struct {
			name string
			mm   float64
		}{{"_mm", 1}, {"_in", 25.4}} {
			if c["from"+unit.name] == "" {
				continue
			}
			to := (number(t, c["from"+unit.name]) + number(t, c["length"+unit.name])) * unit.mm
			if to <= end[c["bar"]] || to > length[c["bar"]]+1e-3 {
				t.Errorf("bar %s: %s ends at %.3f mm behind %.3f, of %.1f", c["bar"], c["piece"], to, end[c["bar"]], length[c["bar"]])
			}
			end[c["bar"]] = to
		}
	}
	pieces, want := 0, 0
	for _, row := range list {
		first, _, _ := strings.Cut(row["sticks"], ", ")
		if n := int(number(t, row["per_set"])); sawn[first] != n {
			t.Errorf("%s: %d are sawn, the cut list has %d", first, sawn[first], n)
		}
	}
	for _, n := range sawn {
		pieces += n
	}
	for _, row := range list {
		want += int(number(t, row["per_set"]))
	}
	for _, k := range r.Ribs {
		want += k.Count * len(k.Caps)
	}
	if pieces != want {
		t.Errorf("%d pieces are sawn, want %d sticks and caps", pieces, want)
	}
}

var marked = regexp.MustCompile(`([^,]+?)(?:/2| left| right)? ×(\d+)`)

// sheets holds the names on the sheets against the list of the plates.
func (r pooled) sheets(t *testing.T, list, sheets []map[string]string) {
	lies := map[string]int{}
	for _, s := range sheets {
		on := 0
		for _, m := range marked.FindAllStringSubmatch(s["names"], -1) {
			n, _ := strconv.Atoi(m[2])
			on += n
			lies[strings.TrimSpace(m[1])] += n * int(number(t, s["count"]))
		}
		if on != int(number(t, s["plates"])) {
			t.Errorf("sheet %s: %d names of %s plates", s["sheet"], on, s["plates"])
		}
	}
	for _, row := range list {
		if row["shape"] == "web" {
			continue // larger than every sheet in stock
		}
		n := 0
		for joint := range strings.SplitSeq(row["joints"], ", ") {
			n += lies[joint]
			delete(lies, joint)
		}
		if n != int(number(t, row["per_set"])) {
			t.Errorf("%s: %d lie on sheets, the list has %s", row["joints"], n, row["per_set"])
		}
	}
	for joint := range lies {
		t.Errorf("%s lies on a sheet and stands in no list", joint)
	}
}

var span = regexp.MustCompile(`^(.+?) (\d+)(?:–(\d+))?(?: \(side (\d)\))?$`)

// batches holds that every side of every rib is mixed for once, and that what is mixed is what the ribs need and a
// sample joint of each batch.
func (r pooled) batches(t *testing.T, coupons []map[string]string) {
	type side struct {
		name      string
		rib, side int
	}
	done := map[side]int{}
	need, sample := 0.0, 0.0
	for _, c := range coupons {
		if c["mixed_oz"] != "" {
			sample += number(t, c["mixed_oz"]) * 28.349523125
		} else {
			sample += number(t, c["mixed_g"])
		}
	}
	for _, b := range r.Batches {
		n := 0
		for part := range strings.SplitSeq(b.Ribs, ", ") {
			m := span.FindStringSubmatch(part)
			if m == nil {
				t.Fatalf("ribs %q", b.Ribs)
			}
			from, _ := strconv.Atoi(m[2])
			to := from
			if m[3] != "" {
				to, _ = strconv.Atoi(m[3])
			}
			of := b.Side
			if m[4] != "" {
				of, _ = strconv.Atoi(m[4])
			}
			for i := from; i <= to; i++ {
				done[side{m[1], i, of}]++
				n++
			}
		}
		if n != b.Sides {
			t.Errorf("%q: %d sides, the batch says %d", b.Ribs, n, b.Sides)
		}
		need += b.Need
	}
	want := 0
	for _, k := range r.Ribs {
		for i := 1; i <= k.Count; i++ {
			for s := 1; s <= 2; s++ {
				want++
				if done[side{k.Name, i, s}] != 1 {
					t.Errorf("side %d of %s %d is in %d batches", s, k.Name, i, done[side{k.Name, i, s}])
				}
			}
		}
	}
	if len(done) != want || math.Abs(need-r.Totals.Adhesive.Mixed-sample*float64(len(r.Batches))) > 2e-3 {
		t.Errorf("%d sides of %d; %.4f g are needed, the ribs take %.4f and a sample %.4f", len(done), want, need, r.Totals.Adhesive.Mixed, sample)
	}
}
