package ribfile

import (
	"errors"
	"regexp"
	"strings"

	"github.com/pelletier/go-toml/v2"

	"ribwright/geom/finding"
)

// syntaxWords says in plain words what the TOML parser could not read, and the remedy. line is the text
// from the start of the statement to the end of its line.
func syntaxWords(message, line string) [2]string {
	for _, w := range parserWords {
		if strings.Contains(message, w.parser) {
			return [2]string{w.message, w.fix}
		}
	}
	if strings.HasPrefix(strings.TrimSpace(line), "[") {
		return [2]string{"This header cannot be read.", "Write it as [cap] or, where there may be several, as [[spar]]."}
	}
	return [2]string{"This line cannot be read.", `Write lines as key = value, such as width = "1/2".`}
}

var decimalComma = regexp.MustCompile(`^[+-]?[0-9]+,[0-9]+$`)

// valueWords betters the words for a line of the form key = value, by the value itself.
func valueWords(words [2]string, name, value string) [2]string {
	bare, _, _ := strings.Cut(value, "#")
	bare = strings.TrimSpace(bare)
	switch {
	case bare == "":
		return [2]string{"A value is missing after the equals sign.", "Write the value, or take the line away."}
	case words[0] != moreOnLine && words[0] != noValue && words[0] != lettersBehind:
		return words
	case decimalComma.MatchString(bare):
		return [2]string{"There is a comma in this number.", "Write a decimal point: " + name + " = " + strings.Replace(bare, ",", ".", 1)}
	case strings.EqualFold(bare, "yes") || strings.EqualFold(bare, "on") || strings.EqualFold(bare, "true"):
		return [2]string{"This is neither a number nor a text.", "Write " + name + " = true, in small letters and without quotation marks."}
	case strings.EqualFold(bare, "no") || strings.EqualFold(bare, "off") || strings.EqualFold(bare, "false"):
		return [2]string{"This is neither a number nor a text.", "Write " + name + " = false, in small letters and without quotation marks."}
	case strings.ContainsAny(bare[:1], `"'`):
		return [2]string{"There is more on this line after the closing quotation mark.",
			`Write in for an inch mark inside a text, as in "1/4 in", and each key on a line of its own.`}
	case !strings.ContainsAny(bare, "\"'[]{}=,\\") && len(bare) <= 40:
		words[1] = "Put the whole value in quotation marks: " + name + " = " + quote(bare)
	}
	return words
}

const (
	moreOnLine    = "There is more on this line than one value."
	noValue       = "This value cannot be read."
	lettersBehind = "A number with letters behind it needs quotation marks."
)

// parserWords are looked through in order for a part of the parser's message.
var parserWords = []struct{ parser, message, fix string }{
	{"expected newline but got", moreOnLine,
		`Put fractions and units in quotation marks, as in "1 1/8 in", and each key on a line of its own.`},
	{"strings must be quoted", lettersBehind, `Write it as "6 mm".`},
	{"at start of value", noValue, "Put words, fractions and units in quotation marks; a number stands without."},
	{"expected keyword", noValue, "Put words in quotation marks; without them only true and false may stand."},
	{"expected value, not end", "A value is missing after the equals sign.", "Write the value, or take the line away."},
	{"unterminated", "The closing quotation mark is missing.", `End the text with the mark it began with. An inch mark inside it is written \" or simply in.`},
	{"cannot have new lines", "The closing quotation mark is missing on this line.", "End the text with the mark it began with, on the same line."},
	{"not terminated", "The three closing quotation marks are missing.", `Write the text on one line, between single marks: "…".`},
	{"array is incomplete", "The closing bracket ] of this list is missing.", "Close every [ with a ]."},
	{"after array value", "A comma or the closing bracket ] is missing in this list.", "Put a comma between the entries, and a ] at the end."},
	{"expected value but got", "There is a comma too many in this list.", "Put one comma between two entries."},
	{"inline table is incomplete", "The closing brace } is missing.", "Close every { with a }."},
	{"after inline table key-value", "A comma or the closing brace } is missing.", "Put a comma between the entries, and a } at the end."},
	{"comma in inline table", "There is a comma too many between the braces.", "Put one comma between two entries."},
	{"close table name", "The closing bracket ] of this header is missing.", "Write it as [cap]."},
	{"close array table name", "The closing brackets ]] of this header are missing.", "Write it as [[spar]]."},
	{"expected '=' after key", "There is no equals sign after the key.", `Write lines as key = value, such as width = "1/2".`},
	{"start of key", "A key cannot begin with this sign.", "Write lines as key = value; a remark begins with #."},
	{"expected key", "A key is missing here.", `Write lines as key = value, such as width = "1/2".`},
	{"leading zeroes", "A number cannot begin with a zero.", `Write 6 for 06; a section's digits stand in quotation marks, as in naca = "0012".`},
	{"decimal point must be", "Digits are missing after the decimal point.", "Write 6.0 or 6 for 6."},
	{"expected digit", "A digit is missing in this number.", "Write numbers as 6, 6.5 or 0.25."},
	{"exponent", "Digits are missing after the e of this number.", "Write numbers as 6, 6.5 or 0.25."},
	{"underscores", "This number has an underscore too many.", "Write numbers as 1400 or 6.5."},
	{"escape", `A \ in a text begins a special sign, and this one is not known.`, `Write \\ for one \, or put the text in single marks: '…'.`},
	{"control character", "There is a sign here that cannot be printed.", "Take it away; it may come from copying."},
	{"carriage return", "There is half a line end here.", "Save the file from a plain text editor."},
	{"nested more than", "Brackets stand inside one another far too deep.", "Take the superfluous brackets away."},
	{"too many quotes", "There are too many quotation marks here.", `Write the text between single marks: "…".`},
	{"too large", "This number is too large.", "Write a number that a wing can have."},
	{"date", "This date cannot be.", `Write it as 2026-11-25, or as text in quotation marks.`},
	{"time", "This time cannot be.", "Write it as text in quotation marks."},
	{"already", "This stands in the file already.", "Take one of the two away."},
}

// verify lets the TOML library read the whole file, for the rules the tree does not know: impossible
// dates, numbers too large, tables opened again from elsewhere.
func verify(src *source) []finding.Finding {
	var all map[string]any
	err := toml.Unmarshal(src.data, &all)
	if err == nil {
		return nil
	}
	f := finding.Finding{Code: CodeSyntax, File: src.file, Line: 1, Column: 1}
	line := ""
	var de *toml.DecodeError
	if errors.As(err, &de) {
		row, col := de.Position()
		if row >= 1 && row <= len(src.lines) {
			start := src.lines[row-1]
			p := src.place(min(start+max(col-1, 0), len(src.data)))
			f.Line, f.Column = p.line, p.column
			line = string(src.data[start:src.lineEnd(start)])
		}
	}
	words := syntaxWords(err.Error(), line)
	f.Message, f.Fix = words[0], words[1]
	return []finding.Finding{f}
}
