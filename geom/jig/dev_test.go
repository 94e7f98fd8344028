package jig

import (
	"fmt"
	"os"
	"testing"
	"time"

	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

func TestDev(t *testing.T) {
	for _, n := range []string{"marsh-wren", "reed-bunting", "starter"} {
		data, _ := os.ReadFile("../../cmd/ribwright/demo/" + n + ".toml")
		doc, _ := ribfile.Read("x", data)
		sec, _ := rib.Section(doc, func(string) ([]byte, error) { return nil, nil })
		r, _ := rib.Build(doc, sec)
		t0 := time.Now()
		j, fs := Plan(r, doc)
		fmt.Println(n, len(j.Blocks), time.Since(t0), j.Board)
		for _, f := range fs {
			fmt.Println(f)
		}
		for _, h := range j.Holds {
			fmt.Println(h)
		}
		for _, b := range j.Blocks {
			if b.Length != doc.Jig.BlockLength || b.Width != doc.Jig.BlockWidth {
				fmt.Println("special", b.ID, b.At, b.Members())
			}
			if len(b.Members()) != 1 {
				fmt.Println("members", b.ID, b.At, b.Members(), b.Contacts)
			}
		}
		fmt.Println(j.Spacers)
	}
}

func BenchmarkDev(b *testing.B) {
	data, _ := os.ReadFile("../../cmd/ribwright/demo/marsh-wren.toml")
	doc, _ := ribfile.Read("x", data)
	sec, _ := rib.Section(doc, func(string) ([]byte, error) { return nil, nil })
	r, _ := rib.Build(doc, sec)
	for b.Loop() {
		Plan(r, doc)
	}
}
