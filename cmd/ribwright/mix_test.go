package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestMix holds what stands on the screen: the card of a rib file and of flags, and corrections.
func TestMix(t *testing.T) {
	rib := demoFile(t, "marsh-wren.toml")
	for _, c := range []struct {
		args string
		want []string
	}{
		{rib, []string{"Marsh Wren", "1 : 1 by weight", "Tare the empty cup         0.0 g", "16.8 g", "33.7 g", "for batch 1, the first sides of ribs 1–3"}},
		{rib + " --batch 14", []string{"9.4 g", "18.8 g", "for batch 14, the second sides of ribs 19–21"}},
		{rib + " --batch 17", []string{"for batch 17, the first and second sides of ribs 25–26 (side 1), 25–26 (side 2)"}},
		{rib + " --target 40", []string{"20.0 g", "40.0 g", "2 % is allowed"}},
		{rib + " --target 2oz", []string{"28.4 g", "56.7 g"}}, // 56.699 g, and the scale shows grams
		{"--ratio 1:1 --by weight --target 0.9oz", []string{"0.45 oz", "0.90 oz", "Mix at least 1.52 oz"}},
		{"--ratio 100:43 --target 30g --step 0.5", []string{"21.0 g", "30.0 g"}},
		{"--ratio 1:1 --target 0.9oz --poured 0.48,0.55", []string{"ADD 0.07 oz of A", "reads 1.10 oz"}},
		{"--ratio 1:1 --poured 12g,12.5", []string{"ADD 0.5 g of A", "the more there is in the cup, the shorter"}},
		{"--ratio 2:1 --by volume --densities 1.15,1.00 --target 33g", []string{"2.300 : 1 by weight", "23.0 g", "33.0 g"}},
		{"--ratio 1:1 --target 10 --tolerance 5%", []string{"5 % is allowed"}},
	} {
		code, out, msg := call(append([]string{"mix"}, strings.Fields(c.args)...)...)
		if code != exitOK || msg != "" {
			t.Errorf("mix %s: status %d, %s", c.args, code, msg)
		}
		for _, want := range c.want {
			if !strings.Contains(out, want) {
				t.Errorf("mix %s: no %q in\n%s", c.args, want, out)
			}
		}
	}
}

// Mistakes are told with what to write instead, and end with status 2.
func TestMixRefuses(t *testing.T) {
	for args, want := range map[string]string{
		"":                                                "say the adhesive's ratio",
		"--target 3":                                      "say the adhesive's ratio",
		"--ratio 1:1":                                     "say how much to mix",
		"--ratio 1:1 --poured 1,1 --card x.svg":           "say how much to mix",
		"--ratio 1/1 --target 3":                          "such as 1:1",
		"--ratio 1:0 --target 3":                          "such as 1:1",
		"--ratio 1:1 --target 3mm":                        "Use g, kg, mg, oz or lb",
		"--ratio 1:1 --target 0.01":                       "mind the unit",
		"--ratio 1:1 --target 3 --step 0":                 "from 0.001 g to 100 g",
		"--ratio 1:1 --by guess --target 3":               "choose weight or volume",
		"--ratio 1:1 --by volume --target 3":              "--densities 1.15,1.00",
		"--ratio 1:1 --densities 1,1 --target 3":          "only where the ratio is by volume",
		"--ratio 1:1 --target 3 --tolerance 50":           "such as 2%",
		"--ratio 1:1 --target 3 --poured 1,2,3":           "a point in the figures",
		"--ratio 1:1 --target 3 --poured 0,0":             "leave --poured out",
		"--ratio 1:1 --target 3 --poured 1.05,2":          "no reading of a scale that shows steps of 0.1 g",
		"--ratio 1:1 --target 3 --card card.doc":          "pdf, svg, png",
		"--ratio 1:1 --target 3 --card -":                 "name a file for the picture",
		demoFile(t, "starter.toml") + " --batch 3":        "batches 1 to 2",
		"no-such-rib.toml":                                "cannot be read",
		"--ratio 1:1 --target 3 --card x.pdf --paper B99": "--paper",
	} {
		code, out, msg := call(append([]string{"mix"}, strings.Fields(args)...)...)
		if code != exitUsage || out != "" || !strings.Contains(msg, want) {
			t.Errorf("mix %s: status %d, printed %q, told %q; want %q", args, code, out, msg, want)
		}
	}
}

// The card is written in every format, twice with the same bytes; JSON says the same as the screen.
func TestMixCardAndJSON(t *testing.T) {
	rib, dir := demoFile(t, "starter.toml"), t.TempDir()
	for _, name := range []string{"card.pdf", "card.svg", "card.png"} {
		var last string
		for range 2 {
			path := filepath.Join(dir, name)
			if code, _, msg := call("mix", rib, "--target", "2 oz", "--card", path, "--paper", "Letter"); code != exitOK {
				t.Fatal(msg)
			}
			data, err := os.ReadFile(path)
			if err != nil || len(data) < 1000 {
				t.Fatalf("%s: %d bytes, %v", name, len(data), err)
			}
			if last != "" && last != string(data) {
				t.Errorf("%s differs when it is written again", name)
			}
			last = string(data)
		}
	}
	code, out, msg := call("mix", rib, "--target", "2 oz", "--poured", "1.03,1", "--json")
	var got struct {
		Add []struct {
			Part string
			AddG float64 `json:"add_g"`
		}
		TotalG float64 `json:"total_g"`
	}
	if err := json.Unmarshal([]byte(out), &got); code != exitOK || err != nil || len(got.Add) != 1 || got.Add[0].Part != "B" || got.TotalG != 58.400018 {
		t.Errorf("status %d, %s %v: %s", code, msg, err, out)
	}
}

// TestMixCardsAreCorrected holds that cards on paper are corrected for the printer, as the flag or the rib file says, and
// keep the paper's size; a picture of a card stays true.
func TestMixCardsAreCorrected(t *testing.T) {
	rib, dir := demoFile(t, "marsh-wren.toml"), t.TempDir()
	data, err := os.ReadFile(rib)
	if err != nil {
		t.Fatal(err)
	}
	measured := filepath.Join(dir, "measured.toml")
	if err := os.WriteFile(measured, append(data, "\n[paper]\nprinted = \"99x101\"\n"...), 0o644); err != nil {
		t.Fatal(err)
	}
	card := func(args ...string) string {
		t.Helper()
		path := filepath.Join(dir, "card"+filepath.Ext(args[0]))
		if code, _, msg := call(append([]string{"mix", "--card", path}, args[1:]...)...); code != exitOK {
			t.Fatal(msg)
		}
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		return string(data)
	}
	plain := card(".pdf", rib)
	byFlag, byFile := card(".pdf", rib, "--printed", "99x101"), card(".pdf", measured)
	if byFlag != byFile || byFlag == plain {
		t.Error("the cards of a printer that the flag measures, that the rib file measures, and of a true one: want the first two alike")
	}
	if card(".pdf", measured, "--printed", "100x100") != plain {
		t.Error("--printed 100x100 leaves a correction in the cards")
	}
	if got, _ := mediaBoxes(byFlag); len(got) != 1 || got[0] != "595.27559 841.88976" {
		t.Errorf("corrected cards are on pages of %v points", got)
	}
	if card(".svg", measured) != card(".svg", rib) {
		t.Error("a card as SVG is corrected")
	}
	if code, _, msg := call("mix", rib, "--printed", "80x80"); code != exitUsage || !strings.Contains(msg, "--printed") {
		t.Errorf("--printed 80x80: status %d, %s", code, msg)
	}
}
