// Package gcode writes drilling programs for small machines in the RS-274/NGC language (Kramer, Proctor and Messina,
// "The NIST RS274NGC Interpreter, Version 3", NISTIR 6556, 2000; sections in brackets below are its own).
//
// Lengths are millimetres, and are written in the unit the program names. X and Y lie in the sheet, Z is up, and its
// zero is the sheet's upper face. The package drills holes; it mills nothing, changes no tools and does not start
// the spindle.
package gcode

import (
	"bufio"
	"fmt"
	"io"
	"strings"

	"ribwright/export"
	"ribwright/geom"
)

// Program is one drilling program.
type Program struct {
	Remarks  []string // stand at its head
	Inch     bool     // G20 and inches; else G21 and millimetres
	Safe     float64  // height at which the drill moves from hole to hole; above 0
	Depth    float64  // of the holes below the upper face; above 0
	Feed     float64  // mm/min, downward
	Holes    []Hole   // in the order of drilling
	Diameter float64  // of the drill, for the remark
}

// Hole is a place to drill.
type Hole struct {
	At   geom.Pt
	Name string // for the remark beside it
}

// mostSigns is the longest line a machine must take [3.2].
const mostSigns = 256

// Write writes the program: modes first, then one drilling cycle (G81 [3.5.16.2]) for each hole, and the end (M2 [3.6.1]).
func (p Program) Write(w io.Writer) error {
	if !(p.Safe > 0 && p.Depth > 0 && p.Feed > 0) {
		return fmt.Errorf("gcode: safe height %v, depth %v and feed %v must be above 0", p.Safe, p.Depth, p.Feed)
	}
	b := bufio.NewWriter(w)
	unit, word, scale, places := "G21", "mm", 1.0, 3
	if p.Inch {
		unit, word, scale, places = "G20", "in", 25.4, 4
	}
	num := func(mm float64) string { return string(export.AppendNum(nil, mm/scale, places)) }
	for _, r := range p.Remarks {
		fmt.Fprintln(b, remark(r))
	}
	fmt.Fprintln(b, remark(fmt.Sprintf("%d holes, drill of %s %s, depth %s %s, feed %s %s per minute", len(p.Holes), num(p.Diameter), word, num(p.Depth), word, num(p.Feed), word)))
	// Plane, unit, no cutter compensation, no tool length offset, no cycle, absolute, feed by the minute [3.5].
	fmt.Fprintf(b, "G17 %s G40 G49 G80 G90 G94\n", unit)
	fmt.Fprintf(b, "G0 Z%s\n", num(p.Safe))
	fmt.Fprintln(b, remark("Start the spindle by hand, then let the program go on."))
	fmt.Fprintln(b, "M0")
	start := min(p.Safe, 1) // from here the drill feeds
	for i, h := range p.Holes {
		line := fmt.Sprintf("X%s Y%s", num(h.At.X), num(h.At.Y))
		if i == 0 {
			fmt.Fprintf(b, "G0 %s\n", line)
			line = fmt.Sprintf("G98 G81 %s Z%s R%s F%s", line, num(-p.Depth), num(start), num(p.Feed))
		}
		if h.Name != "" {
			line += " " + remark(h.Name)
		}
		fmt.Fprintln(b, line)
	}
	fmt.Fprintf(b, "G80\nG0 Z%s\n", num(p.Safe))
	fmt.Fprintln(b, remark("Stop the spindle by hand."))
	fmt.Fprintln(b, "M2")
	return b.Flush()
}

// remark writes a comment [3.3.4]: ASCII, without brackets of its own. One that would be taken for a message to the
// operator gets a word before it.
func remark(s string) string {
	s = strings.NewReplacer("(", "[", ")", "]").Replace(export.ASCII(s))
	if len(s) > mostSigns/2 {
		s = s[:mostSigns/2]
	}
	if strings.HasPrefix(strings.ToUpper(strings.TrimSpace(s)), "MSG,") {
		s = "remark: " + s
	}
	return "(" + s + ")"
}
