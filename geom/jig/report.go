package jig

import (
	"math"

	"ribwright/geom"
)

// Report is the board as report.json holds it: lengths mm, angles degrees, six decimals.
type Report struct {
	BoardMM       [2]float64     `json:"board_mm"` // along and across the chord
	BoardAt       [2]float64     `json:"board_at"` // its lower fore corner, from the leading edge
	BlockHeightMM float64        `json:"block_height_mm"`
	Blocks        []blockReport  `json:"blocks"`
	Relief        []reliefReport `json:"relief"`
	Spacers       []spacerReport `json:"spacers"`
	Members       []memberReport `json:"members"`
}

type blockReport struct {
	ID       string          `json:"id"`
	Members  []string        `json:"members"`
	At       [2]float64      `json:"at"` // the middle of the edge that bears
	AngleDeg float64         `json:"angle_deg"`
	SizeMM   [2]float64      `json:"size_mm"`
	Outline  [][2]float64    `json:"outline"`
	Contacts []contactReport `json:"contacts"`
}

type contactReport struct {
	Member string     `json:"member"`
	At     [2]float64 `json:"at"`
	Normal [2]float64 `json:"normal"`
}

type reliefReport struct {
	Joint      string     `json:"joint"`
	At         [2]float64 `json:"at"`
	DiameterMM float64    `json:"diameter_mm"`
}

type spacerReport struct {
	Spar     string  `json:"spar"`
	WidthMM  float64 `json:"width_mm"`
	LengthMM float64 `json:"length_mm"`
}

type memberReport struct {
	ID         string   `json:"id"`
	Blocks     []string `json:"blocks"`
	Held       bool     `json:"held"`
	UnderPlate bool     `json:"under_plate"`
	// Play is in clearances.
	Play float64 `json:"play"`
}

// Report returns the board for report.json.
func (j Jig) Report() Report {
	out := Report{BoardMM: [2]float64{round(j.Board.W()), round(j.Board.H())}, BoardAt: pair(j.Board.Min), BlockHeightMM: round(j.Height),
		Blocks: []blockReport{}, Relief: []reliefReport{}, Spacers: []spacerReport{}, Members: []memberReport{}}
	for _, b := range j.Blocks {
		r := blockReport{ID: b.ID, Members: b.Members(), At: pair(b.At), AngleDeg: round(b.Angle * 180 / math.Pi),
			SizeMM: [2]float64{round(b.Length), round(b.Width)}}
		for _, p := range b.Outline {
			r.Outline = append(r.Outline, pair(p))
		}
		for _, c := range b.Contacts {
			r.Contacts = append(r.Contacts, contactReport{c.Member, pair(c.At), pair(c.Normal)})
		}
		out.Blocks = append(out.Blocks, r)
	}
	for _, h := range j.Holes {
		out.Relief = append(out.Relief, reliefReport{h.Joint, pair(h.At), round(h.Diameter)})
	}
	for _, s := range j.Spacers {
		out.Spacers = append(out.Spacers, spacerReport{s.Spar, round(s.Width), round(s.Length)})
	}
	for _, h := range j.Holds {
		out.Members = append(out.Members, memberReport{h.Member, append([]string{}, h.Blocks...), h.Held, h.Covered, round(h.Play)})
	}
	return out
}

func pair(p geom.Pt) [2]float64 { return [2]float64{round(p.X), round(p.Y)} }

// round keeps six decimals, and makes no −0.
func round(v float64) float64 { return math.Round(v*1e6)/1e6 + 0 }
