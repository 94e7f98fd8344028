// Package finding holds what the program has to say about a rib file: mistakes, doubts and remarks.
//
// A finding serves the terminal, the JSON report and the mark on the drawing. Geometry packages fill
// the key and the part; the reader of the rib file adds file, line and column. Lengths in At are
// millimetres in rib axes (x aft from the leading edge, y up). The package prints; it decides nothing.
package finding

import (
	"fmt"
	"sort"

	"ribwright/geom"
)

// Severity says what a finding stops.
type Severity int

// The severities. An Error stops the writing of cut files.
const (
	Error Severity = iota
	Warning
	Note
)

var severityNames = [...]string{"error", "warning", "note"}

// String returns "error", "warning" or "note".
func (s Severity) String() string { return severityNames[s] }

// MarshalText writes the severity's name.
func (s Severity) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// Finding is one thing to tell the builder.
type Finding struct {
	Severity Severity  `json:"severity"`
	Code     string    `json:"code"`             // such as "gusset-overlap": stable, for tests and scripts
	Message  string    `json:"message"`          // what is wrong, in the builder's words and units
	Fix      string    `json:"fix"`              // what to change
	Key      string    `json:"key,omitempty"`    // rib-file key, such as "gusset.diameter" or "spar[1].width" (counted from 0)
	File     string    `json:"file,omitempty"`   // where the mistake stands
	Line     int       `json:"line,omitempty"`   // from 1; 0: no place
	Column   int       `json:"column,omitempty"` // in characters, from 1
	Part     string    `json:"part,omitempty"`   // such as "U7" or "S3"
	At       []geom.Pt `json:"at,omitempty"`     // places on the drawing
	Got      float64   `json:"got"`              // the size found, and
	Limit    float64   `json:"limit"`            // the size allowed, where Unit is not empty
	Unit     string    `json:"unit,omitempty"`
}

// String formats the finding for a terminal: place, severity, message, remedy, code.
func (f Finding) String() string {
	s := ""
	if f.File != "" {
		s = f.File + ":"
		if f.Line > 0 {
			s += fmt.Sprintf("%d:%d:", f.Line, f.Column)
		}
		s += " "
	}
	s += f.Severity.String() + ": " + f.Message
	if f.Fix != "" {
		s += "\n    " + f.Fix
	}
	return s + "  [" + f.Code + "]"
}

// HasError reports whether any finding is an error.
func HasError(fs []Finding) bool {
	for _, f := range fs {
		if f.Severity == Error {
			return true
		}
	}
	return false
}

// Sort puts findings in the order of their place in the file, then severity, code and part; it returns a new slice.
func Sort(fs []Finding) []Finding {
	out := append([]Finding(nil), fs...)
	sort.SliceStable(out, func(i, j int) bool {
		a, b := out[i], out[j]
		switch {
		case a.File != b.File:
			return a.File < b.File
		case a.Line != b.Line:
			return a.Line < b.Line
		case a.Column != b.Column:
			return a.Column < b.Column
		case a.Severity != b.Severity:
			return a.Severity < b.Severity
		case a.Code != b.Code:
			return a.Code < b.Code
		}
		return a.Part < b.Part
	})
	return out
}
