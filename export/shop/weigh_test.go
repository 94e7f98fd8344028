package shop

import (
	"strings"
	"testing"

	"ribwright/export"
	"ribwright/geom"
	"ribwright/geom/mix"
	"ribwright/geom/ribfile"
)

// equalParts is a batch of equal parts by weight, common practice, no source.
func equalParts(shows ribfile.Units, step, target float64) Weighing {
	return Weighing{RatioA: 1, RatioB: 1, By: "weight", Ratio: mix.Ratio{A: 1, B: 1}, Shows: shows, TargetG: target,
		Scale: mix.Scale{StepG: step, Tolerance: 0.02}}
}

func TestWeighingWords(t *testing.T) {
	ounces := equalParts(ribfile.Inch, ribfile.Inch.Grams(0.01), ribfile.Inch.Grams(0.9))
	coarse := equalParts(ribfile.MM, 1, 40)
	coarse.Ratio, coarse.RatioA, coarse.RatioB = mix.Ratio{A: 100, B: 43}, 100, 43
	cups := equalParts(ribfile.MM, 0.1, 100)
	cups.CupLeastG, cups.CupMostG = 20, 60
	small := cups
	small.TargetG = 12
	justOver := equalParts(ribfile.MM, 0.1, 14.9)
	for _, c := range []struct {
		name string
		got  []string
		want []string
	}{
		{"ounces", ounces.Words(), []string{"0.00 oz", "0.45 oz", "0.90 oz", "off by 3.4 %", "CAUTION", "at least 1.52 oz"}},
		{"too coarse", coarse.Words(), []string{"28 g", "40 g", "100 : 43 by weight", "at least 216 g"}},
		{"just over", justOver.Words(), []string{"can put the ratio off by just over 2 %; only 2 % is allowed"}},
		{"two cups", cups.Words(), []string{"25.0 g", "50.0 g", "mix 2 cups", "2 % is allowed", "smallest batch that it weighs so well is 15.2 g"}},
		{"the smallest cup", small.Words(), []string{"10.0 g", "20.0 g", "The least you mix in a cup is 20.0 g"}},
		{"too much B", ounces.MendWords(ribfile.Inch.Grams(0.48), ribfile.Inch.Grams(0.55)),
			[]string{"12.7 % too low: too much B", "ADD 0.07 oz of A", "until the scale reads 1.10 oz", "Pot life: 0.20 oz more than the 0.90 oz planned"}},
		{"over the cup", cups.MendWords(40, 20), []string{"ADD 20.0 g of B", "CAUTION: that is 20.0 g more than the cup takes (60.0 g)"}},
		{"right", cups.MendWords(25, 25), []string{"The ratio is right", "ADD NOTHING", "Pot life: as planned", "Cup: it fits"}},
		{"within", cups.MendWords(25.1, 25), []string{"ADD 0.1 g of B", "It may also stay"}},
		{"A alone", cups.MendWords(26, 0), []string{"no B in it yet", "ADD 26.0 g of B", "reads 52.0 g"}},
	} {
		text := strings.Join(c.got, "\n")
		for _, want := range append(c.want, "maker's figures", "sample joint") {
			if !strings.Contains(text, want) {
				t.Errorf("%s: no %q in\n%s", c.name, want, text)
			}
		}
		for _, bad := range []string{"-0", "NaN", "Inf", "%!"} {
			if strings.Contains(text, bad) {
				t.Errorf("%s: %q in\n%s", c.name, bad, text)
			}
		}
	}
}

// What is written beside the scale is as fine as its step.
func TestReadingsAsFineAsTheStep(t *testing.T) {
	for _, c := range []struct {
		shows ribfile.Units
		step  float64
		g     float64
		want  string
	}{
		{ribfile.MM, 0.1, 12, "12.0 g"}, {ribfile.MM, 1, 12, "12 g"}, {ribfile.MM, 0.05, 12.35, "12.35 g"}, {ribfile.MM, 5, 15, "15 g"},
		{ribfile.Inch, ribfile.Inch.Grams(0.01), ribfile.Inch.Grams(0.9), "0.90 oz"}, {ribfile.Inch, ribfile.Inch.Grams(0.125), ribfile.Inch.Grams(0.5), "0.500 oz"},
		{ribfile.Inch, ribfile.Inch.Grams(0.005), ribfile.Inch.Grams(1.235), "1.235 oz"},
	} {
		if got := equalParts(c.shows, c.step, 0).Reading(c.g); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}

// Cards fill the paper, stay within its margins, and no two texts of them meet.
func TestScaleCardKeepsItsPlace(t *testing.T) {
	long := equalParts(ribfile.Inch, ribfile.Inch.Grams(0.001), ribfile.Inch.Grams(40))
	long.Title = strings.Repeat("A rib with a long name ", 4)
	long.By, long.Ratio, long.For = "volume", mix.ByVolume(1, 1, 1.15, 1.0), "the first side of a rib"
	long.CupMostG, long.CupLeastG = ribfile.Inch.Grams(5), ribfile.Inch.Grams(50)
	coarse := equalParts(ribfile.MM, 1, 11)
	coarse.CupLeastG = 12
	for name, w := range map[string]Weighing{"long": long, "coarse": coarse, "large": equalParts(ribfile.MM, 0.1, 12345.6)} {
		for paper, want := range map[string]int{"": 1, "A4": 4, "Letter": 4, "A3": 9, "A5": 1, "roll 610": 1} {
			p, err := ribfile.ParsePaper(paper, ribfile.MM)
			if paper == "" {
				p, err = ribfile.Paper{}, nil
			}
			if err != nil {
				t.Fatal(err)
			}
			p.Margin = ribfile.Margins{Left: 10, Right: 10, Top: 10, Bottom: 10}
			d := ScaleCard(w, p)
			s := d.Sheets[0]
			room := geom.NewBox(geom.Pt{}, geom.Pt{X: s.W, Y: s.H}).Grow(-4)
			cards := 0
			var texts []export.Text
			for _, it := range s.Parts[0].Items {
				if it.Layer == layerMatch {
					continue
				}
				if b := bounds([]export.Item{it}); b.Min.X < room.Min.X || b.Min.Y < room.Min.Y || b.Max.X > room.Max.X || b.Max.Y > room.Max.Y {
					t.Errorf("%s, %s: %+v leaves the sheet", name, paper, it.Text)
				}
				if it.Text == nil {
					continue
				}
				if it.Text.S == "1" {
					cards++
				}
				for _, o := range texts {
					if textQuad(*it.Text, 0).meets(textQuad(o, 0)) {
						t.Errorf("%s, %s: %q stands on %q", name, paper, it.Text.S, o.S)
					}
				}
				texts = append(texts, *it.Text)
			}
			if cards != want {
				t.Errorf("%s, %s: %d cards, want %d", name, paper, cards, want)
			}
		}
	}
}
