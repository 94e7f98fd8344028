package pack

import (
	"math"
	"reflect"
	"testing"

	"ribwright/geom"
)

// TestReasons asks for what cannot be laid, and wants to be told why.
func TestReasons(t *testing.T) {
	sheet := []Sheet{{Outline: rect(100, 50), Count: 1}}
	square := rect(40, 40).Path()
	bow := geom.Ring{{}, {X: 10, Y: 10}, {X: 10}, {Y: 10}}.Path()
	tests := []struct {
		name  string
		part  Part
		sheet []Sheet
		gap   float64
		want  []Unplaced
	}{
		{"open", Part{Outline: geom.Polyline(geom.Pt{}, geom.Pt{X: 9}, geom.Pt{Y: 9}), Count: 2}, sheet, 0, []Unplaced{{0, 2, BadOutline}}},
		{"empty", Part{Count: 1}, sheet, 0, []Unplaced{{0, 1, BadOutline}}},
		{"two points", Part{Outline: geom.Ring{{}, {X: 1}}.Path(), Count: 1}, sheet, 0, []Unplaced{{0, 1, BadOutline}}},
		{"flat", Part{Outline: geom.Ring{{}, {X: 1}, {X: 2}, {X: 3}}.Path(), Count: 1}, sheet, 0, []Unplaced{{0, 1, BadOutline}}},
		{"crosses itself", Part{Outline: bow, Count: 1}, sheet, 0, []Unplaced{{0, 1, BadOutline}}},
		{"not a number", Part{Outline: rect(math.NaN(), 3).Path(), Count: 1}, sheet, 0, []Unplaced{{0, 1, BadOutline}}},
		{"endless", Part{Outline: rect(math.Inf(1), 3).Path(), Count: 1}, sheet, 0, []Unplaced{{0, 1, BadOutline}}},
		{"angle not a number", Part{Outline: square, Count: 1, Angles: []float64{math.NaN()}}, sheet, 0, []Unplaced{{0, 1, BadOutline}}},
		{"disc of nothing", Part{Outline: geom.Circle(geom.Pt{}, 0), Count: 1}, sheet, 0, []Unplaced{{0, 1, BadOutline}}},
		{"larger than the sheet", Part{Outline: rect(101, 10).Path(), Count: 3}, sheet, 0, []Unplaced{{0, 3, TooLarge}}},
		{"long, turned", Part{Outline: rect(10, 90).Path(), Count: 1, Angles: []float64{math.Pi / 2}}, sheet, 0, nil},
		{"sheets used up", Part{Outline: square, Count: 5}, sheet, 0, []Unplaced{{0, 3, SheetsUsed}}},
		{"gap below 0", Part{Outline: square, Count: 1}, sheet, -1, []Unplaced{{0, 1, BadJob}}},
		{"gap not a number", Part{Outline: square, Count: 1}, sheet, math.NaN(), []Unplaced{{0, 1, BadJob}}},
		{"no sheet", Part{Outline: square, Count: 1}, nil, 0, []Unplaced{{0, 1, NoSheet}}},
		{"a sheet of nothing", Part{Outline: square, Count: 1}, []Sheet{{}}, 0, []Unplaced{{0, 1, NoSheet}}},
		{"none wanted", Part{Count: 0}, sheet, 0, nil},
		{"fewer than none", Part{Outline: square, Count: -3}, sheet, 0, nil},
		{"fits to a hair", Part{Outline: rect(100, 50).Path(), Count: 1}, sheet, 3, nil},
		{"points on lines", Part{Outline: geom.Ring{{}, {X: 20}, {X: 40}, {X: 40}, {X: 40, Y: 40}, {Y: 40}, {Y: 20}}.Path(), Count: 2}, sheet, 0, nil},
	}
	for _, tt := range tests {
		job := NestJob{Parts: []Part{tt.part}, Sheets: tt.sheet, Gap: tt.gap, Effort: 1}
		l := Nest(job)
		if !reflect.DeepEqual(l.Unplaced, tt.want) {
			t.Errorf("%s: unplaced %v, want %v", tt.name, l.Unplaced, tt.want)
		}
		if tt.gap >= 0 {
			checkLayout(t, tt.name, job, l)
		}
	}
}

// TestSameJobSameLayout nests a job twice.
func TestSameJobSameLayout(t *testing.T) {
	job := plates200(t)
	job.Effort = 100_000
	if a, b := Nest(job), Nest(job); !reflect.DeepEqual(a, b) {
		t.Error("the same job gave two layouts")
	}
}

// TestStop stops at once: the layout is whole all the same.
func TestStop(t *testing.T) {
	job := plates200(t)
	job.Stop = func() bool { return true }
	said := 0
	job.Progress = func(done, all int) { said++ }
	l := Nest(job)
	checkLayout(t, "stopped", job, l)
	if len(l.Placed) != 200 || said == 0 {
		t.Errorf("%d placed, told %d times", len(l.Placed), said)
	}
}

// TestOffcutsFirst has a free offcut among priced sheets, and two kinds of which one is dear.
func TestOffcutsFirst(t *testing.T) {
	job := NestJob{Parts: []Part{{Outline: rect(30, 30).Path(), Count: 12}}, Sheets: []Sheet{
		{ID: "dear", Outline: rect(100, 70), Price: 20},
		{ID: "offcut", Outline: geom.Ring{{}, {X: 95}, {X: 60, Y: 65}, {X: 0, Y: 65}}, Count: 1},
		{ID: "cheap", Outline: rect(100, 70), Price: 10},
	}}
	l := Nest(job)
	checkLayout(t, "offcuts", job, l)
	var got []int
	for _, u := range l.Uses {
		got = append(got, u.Sheet)
	}
	if want := []int{1, 2, 2}; !reflect.DeepEqual(got, want) {
		t.Errorf("sheets %v, want %v", got, want)
	}
}

// TestTaperedSet has so many shapes that some stand in for others; what is placed are the plates themselves.
func TestTaperedSet(t *testing.T) {
	job := taperedSet()
	job.Parts, job.Effort = job.Parts[:90], 1
	for i := range job.Parts {
		job.Parts[i].Count = 1
	}
	b, _ := newBench(job)
	shapes := 0
	for _, p := range b.parts {
		shapes += len(p)
	}
	if b.own < fewForms || b.own > shapes*2/3 {
		t.Errorf("%d forms for %d shapes, want clearly fewer, and %d at least", b.own, shapes, fewForms)
	}
	l := Nest(job)
	checkLayout(t, "tapered", job, l)
	if len(l.Placed) != 90 {
		t.Errorf("%d placed, want 90", len(l.Placed))
	}
}

// TestPlates200 nests the set of 200 plates; testdata/packing/README.md has the figures of another library.
func TestPlates200(t *testing.T) {
	job := plates200(t)
	job.Effort = 400_000
	l := Nest(job)
	checkLayout(t, "200 plates", job, l)
	if len(l.Uses) != 2 || l.Uses[0].Density() < 0.755 {
		t.Errorf("%s; want 2 sheets, the first 75.5 %% full", report(l))
	}
}
