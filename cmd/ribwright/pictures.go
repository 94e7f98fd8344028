package main

import (
	"bytes"
	"cmp"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"ribwright/export"
	"ribwright/export/png"
	"ribwright/geom/ribfile"
)

// Dots of pictures.
const (
	pictureDots = 150   // an inch, where nothing is said
	mostDots    = 15000 // of a side: a long sheet has fewer an inch
	leastInch   = 10
	mostInch    = 600
)

// checkDots holds --png against what makes sense.
func (o *options) checkDots() error {
	if o.png != 0 && (o.png < leastInch || o.png > mostInch) {
		return usage("--png %d: say from %d to %d dots an inch", o.png, leastInch, mostInch)
	}
	return nil
}

// drawFormat returns the format that draw writes a sheet in.
func (o *options) drawFormat(sh sheet) (string, error) {
	if err := o.checkDots(); err != nil {
		return "", err
	}
	fallback := sh.formats[0]
	if o.png > 0 {
		fallback = "png"
	}
	format, err := o.chooseFormat(fallback, "svg", "pdf", "dxf", "png")
	switch {
	case err != nil && o.png > 0 && o.format == "":
		format = "png" // a folder may be called as it likes
	case err != nil:
		return "", err
	}
	if o.png > 0 && format != "png" {
		return "", usage("--png draws a picture, and the output is to be %s: leave one of them out", format)
	}
	if format != "png" && !slices.Contains(sh.formats, format) {
		return "", usage("%s are pages, and only pdf holds pages: use --format pdf, or png for a picture of each", sh.name)
	}
	return format, nil
}

// dots returns how many dots an inch a picture of the sheet has, if possible as many as wanted.
func dots(s export.Sheet, want float64) float64 {
	return min(want, math.Floor(mostDots/(max(s.W, s.H)/ribfile.MMPerInch)))
}

// pictures lists a drawing's pictures, each sheet's a file of its own: jig.png, jig-tiles-A1.png. A sheet that is too long
// for the dots wanted has fewer, with a note.
func (a *app) pictures(base string, d export.Drawing, want int) []file {
	names := pictureNames(base, d)
	out := make([]file, len(names))
	for i, s := range d.Sheets {
		dpi := dots(s, float64(want))
		if dpi < float64(want) {
			fmt.Fprintf(a.err, "note: %s has %.0f dots an inch, not %d: no side has more than %d dots\n", names[i], dpi, want, mostDots)
		}
		out[i] = file{names[i], func(w io.Writer) error { return png.Write(w, d, i, dpi) }}
	}
	return out
}

// pictureNames returns a name for each sheet's picture: its own behind the drawing's where there are several.
func pictureNames(base string, d export.Drawing) []string {
	if len(d.Sheets) == 1 {
		return []string{base + ".png"}
	}
	var out []string
	for i, s := range d.Sheets {
		name := strings.Trim(strings.Map(func(r rune) rune {
			if r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' {
				return r
			}
			return '-'
		}, export.ASCII(s.Name)), "-")
		name = base + "-" + cmp.Or(name, fmt.Sprint(i+1)) + ".png"
		if slices.Contains(out, name) {
			name = fmt.Sprintf("%s-%d.png", strings.TrimSuffix(name, ".png"), i+1)
		}
		out = append(out, name)
	}
	return out
}

// drawPictures writes what draw was asked for as pictures: to the file named, into the folder named under the
// sheet's usual name, or, of several pages, under names made of the file's.
func (a *app) drawPictures(d export.Drawing, base, input string, o *options) error {
	dir := ""
	if strings.HasSuffix(o.out, "/") || strings.HasSuffix(o.out, string(filepath.Separator)) {
		if err := os.MkdirAll(o.out, 0o777); err != nil {
			return fmt.Errorf("the folder for the pictures cannot be made: %w", err)
		}
	}
	if t, err := os.Stat(o.out); o.out != "-" && err == nil && t.IsDir() {
		dir = o.out
	} else if o.out != "-" {
		dir, base = filepath.Dir(o.out), strings.TrimSuffix(filepath.Base(o.out), filepath.Ext(o.out))
	}
	if o.out == "-" && len(d.Sheets) > 1 {
		return usage("there are %d pages, a picture each: name a folder or a file with -o; pages.png becomes pages-%s.png and so on", len(d.Sheets), d.Sheets[0].Name)
	}
	files := a.pictures(base, d, cmp.Or(o.png, pictureDots))
	if len(files) == 1 {
		name := o.out
		if name != "-" && dir == o.out {
			name = filepath.Join(dir, files[0].name)
		}
		return a.writeOne(name, input, files[0].write)
	}
	if err := writeAll(dir, files); err != nil {
		return err
	}
	_, err := fmt.Fprintf(a.out, "%d pictures: %s to %s\n", len(files), filepath.Join(dir, files[0].name), files[len(files)-1].name)
	return err
}

// removePictures takes away the pictures that an older build left and this one does not write.
func (a *app) removePictures(dir string, written []string) error {
	n, last := 0, ""
	for _, s := range sheets() {
		found, err := filepath.Glob(filepath.Join(escape(dir), s.base()+"*.png"))
		if err != nil {
			return err
		}
		for _, path := range found {
			if slices.Contains(written, filepath.Base(path)) || !isPicture(path) {
				continue
			}
			if err := os.Remove(path); err != nil {
				return err
			}
			n, last = n+1, path
		}
	}
	switch {
	case n == 1:
		fmt.Fprintf(a.err, "note: %s of an older build is removed\n", last)
	case n > 1:
		fmt.Fprintf(a.err, "note: %d pictures of an older build are removed from %s\n", n, dir)
	}
	return nil
}

// escape writes a folder's name such that Glob takes it as it is.
func escape(dir string) string {
	return strings.NewReplacer("*", "[*]", "?", "[?]", "[", "[[]").Replace(dir)
}

// isPicture reports whether a file is a picture that this program drew.
func isPicture(path string) bool {
	f, err := os.Open(path)
	if err != nil {
		return false
	}
	defer f.Close()
	head := make([]byte, 200)
	n, _ := io.ReadFull(f, head)
	return bytes.Contains(head[:n], []byte(png.Mark))
}
