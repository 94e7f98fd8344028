package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"unicode"

	"ribwright/airfoils"
	"ribwright/export"
	"ribwright/export/list"
	"ribwright/export/shop"
	"ribwright/geom/finding"
	"ribwright/geom/ribfile"
)

const (
	drawnChord  = 250.0  // mm: of a section drawn without a chord
	mostChord   = 5000.0 // mm: a longer one is on no page
	mostStation = 1000
)

// sections lists the sections that are built in, or prints and draws one.
func (a *app) sections(args []string, o *options) error {
	format, err := o.chooseFormat("md", "md", "csv", "json")
	if err != nil {
		return err
	}
	if len(args) == 0 {
		if o.chord != "" || o.at != "" || o.picture != "" || o.curvature != "" {
			return usage("sections: name a section with --chord, --at, --draw and --curvature")
		}
		return a.writeOne(o.out, "", tables(format, shop.SectionList(airfoils.Builtins())))
	}
	chord, units, err := parseChord(o.chord)
	if err != nil {
		return err
	}
	drawFormat, err := pictureFormat(o.picture, "pdf", "svg", "dxf", "png")
	if err != nil {
		return err
	}
	curvatureFormat, err := pictureFormat(o.curvature, "svg", "png", "pdf")
	if err != nil {
		return err
	}
	s, found, err := sectionNamed(args[0])
	if err != nil {
		return err
	}
	if err := a.tell(found); err != nil {
		return err
	}
	stations := s.Stations()
	if o.at != "" {
		if stations, err = parseStations(o.at, chord); err != nil {
			return err
		}
	}
	if o.picture != "" {
		full := chord
		if full == 0 {
			full = drawnChord
		}
		if err := a.writeOne(o.picture, args[0], drawing(shop.SectionDrawing(s, full, units), drawFormat, ribfile.MM)); err != nil {
			return err
		}
	}
	if o.curvature != "" {
		if err := a.writeOne(o.curvature, args[0], drawing(shop.Curvature(s, s.Suspects()), curvatureFormat, ribfile.MM)); err != nil {
			return err
		}
	}
	return a.writeOne(o.out, args[0], tables(format, shop.SectionOrdinates(s, stations, chord, units)))
}

// tables returns what writes tables in a format.
func tables(format string, all ...export.Table) func(io.Writer) error {
	return func(w io.Writer) error {
		switch format {
		case "csv":
			return list.CSV(w, all...)
		case "json":
			return list.JSON(w, all...)
		}
		return list.Markdown(w, all...)
	}
}

// sectionNamed finds a section: built in, the number of a NACA section, or a file with its table.
func sectionNamed(name string) (airfoils.Section, []finding.Finding, error) {
	if key := strings.ToLower(strings.Join(strings.Fields(name), "-")); slices.Contains(airfoils.BuiltinNames(), key) {
		s, found := airfoils.Builtin(name)
		return s, found, nil
	}
	data, err := os.ReadFile(name)
	switch {
	case err == nil:
		s, found := airfoils.Read(name, data)
		return s, found, nil
	case !errors.Is(err, fs.ErrNotExist):
		return airfoils.Section{}, nil, fmt.Errorf("the section's table cannot be read: %w", whyNot(name, err))
	}
	code := strings.TrimLeft(strings.TrimPrefix(strings.ToLower(name), "naca"), " -_")
	if code != "" && strings.Trim(code, "0123456789-") == "" {
		s, found := airfoils.NACA(code)
		for i := range found { // it stands in no rib file
			found[i].Key = ""
		}
		return s, found, nil
	}
	if near := nearBuiltin(name); near != "" {
		return airfoils.Section{}, nil, usage("there is no section or file %q: did you mean %s?", name, near)
	}
	return airfoils.Section{}, nil, usage("there is no section or file %q: name one of %s, a NACA number such as 4412, or a file with a table",
		name, strings.Join(airfoils.BuiltinNames(), ", "))
}

// nearBuiltin returns the built-in section that a name is likely meant for: the same but for signs between, or its beginning.
func nearBuiltin(name string) string {
	bare := func(s string) string {
		return strings.Map(func(r rune) rune {
			if unicode.IsLetter(r) || unicode.IsDigit(r) {
				return unicode.ToLower(r)
			}
			return -1
		}, s)
	}
	want, near := bare(strings.TrimSuffix(name, filepath.Ext(name))), ""
	for _, b := range airfoils.BuiltinNames() {
		switch has := bare(b); {
		case has == want || has == bare(name):
			return b
		case near == "" && len(want) > 2 && strings.HasPrefix(has, want):
			near = b
		}
	}
	return near
}

// parseChord reads --chord; its unit is that of the lengths that are printed.
func parseChord(s string) (mm float64, units ribfile.Units, err error) {
	if s == "" {
		return 0, ribfile.MM, nil
	}
	mm, hasUnit, err := ribfile.ParseLength(s)
	switch {
	case err != nil:
		return 0, "", usage("--chord: %v", err)
	case !hasUnit:
		return 0, "", usage("--chord %s: say the unit, such as %sin or %smm", s, s, s)
	case !(mm > 0) || mm > mostChord:
		return 0, "", usage("--chord: a chord is more than 0 and at most %.0f m", mostChord/1000)
	}
	if strings.HasSuffix(strings.TrimRight(strings.ToLower(s), " es"), "m") || strings.Contains(strings.ToLower(s), "met") {
		return mm, ribfile.MM, nil
	}
	return mm, ribfile.Inch, nil
}

// parseStations reads --at: percents of the chord, or lengths with their unit.
func parseStations(s string, chord float64) ([]float64, error) {
	var out []float64
	for _, one := range strings.Split(s, ",") {
		one = strings.TrimSpace(one)
		share, percent := strings.CutSuffix(one, "%")
		v, hasUnit, err := ribfile.ParseLength(share)
		switch {
		case err != nil || percent && hasUnit:
			return nil, usage("--at: “%s” is no station: write percents of the chord, such as 0,1.25,2.5, or lengths with their unit", one)
		case hasUnit && chord == 0:
			return nil, usage("--at: the station “%s” is a length, so give the --chord, too", one)
		case hasUnit:
			v /= chord
		default:
			v /= 100
		}
		if v < 0 || v > 1+1e-9 {
			return nil, usage("--at: the station “%s” lies off the section: from 0 to 100 %% of the chord", one)
		}
		if out = append(out, v); len(out) > mostStation {
			return nil, usage("--at: more than %d stations", mostStation)
		}
	}
	return out, nil
}

// pictureFormat returns the format that a picture's name says, the first one known where it says none; none without a name.
func pictureFormat(name string, known ...string) (string, error) {
	switch name {
	case "":
		return "", nil
	case "-":
		return "", usage("name a file for the picture: the standard output has the list")
	}
	o := options{out: name}
	return o.chooseFormat(known[0], known...)
}
