package pack

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math/rand"
	"os"
	"strings"
	"testing"

	"ribwright/geom"
	"ribwright/geom/outside"
)

// geosSheet is one sheet with what lies on it, for testdata/nested.py.
type geosSheet struct {
	Name   string      `json:"name"`
	Sheet  geom.Ring   `json:"sheet"`
	Holes  []geom.Ring `json:"holes"`
	Parts  [][]geom.Pt `json:"parts"`
	Gap    float64     `json:"gap"`
	Margin float64     `json:"margin"`
}

// TestAgainstGEOS has the layouts of two plain and 200 random jobs (58 but for CI=true and RIBWRIGHT_LONG=1) measured by another library, GEOS by way of Debian's python3-shapely: gaps, margins, overlaps.
func TestAgainstGEOS(t *testing.T) {
	python := outside.Python(t, "shapely")
	r := rand.New(rand.NewSource(99))
	jobs := []NestJob{plates200(t), discs200()}
	jobs[0].Effort, jobs[1].Effort = 300_000, 1000
	all := 60
	if os.Getenv("CI") == "true" || os.Getenv("RIBWRIGHT_LONG") != "" {
		all = 202
	}
	for len(jobs) < all {
		jobs = append(jobs, randomJob(r))
	}
	var in bytes.Buffer
	enc := json.NewEncoder(&in)
	sheets := 0
	for k, job := range jobs {
		l := Nest(job)
		for u, use := range l.Uses {
			s := geosSheet{Name: fmt.Sprintf("job %d sheet %d", k, u), Sheet: job.Sheets[use.Sheet].Outline, Holes: job.Sheets[use.Sheet].Holes,
				Gap: job.Gap, Margin: job.Margin}
			for _, p := range l.Placed {
				if p.Use == u {
					s.Parts = append(s.Parts, p.Transform().Path(job.Parts[p.Part].Outline).Flatten(0.0005))
				}
			}
			if err := enc.Encode(s); err != nil {
				t.Fatal(err)
			}
			sheets++
		}
	}
	got := strings.TrimSpace(outside.Run(t, python, "testdata/nested.py", outside.File(t, "sheets.json", in.Bytes())))
	if want := fmt.Sprintf("%d sheets are right", sheets); got != want {
		t.Errorf("%s, want: %s", got, want)
	}
}
