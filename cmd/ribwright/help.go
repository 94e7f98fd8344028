package main

import (
	"fmt"
	"strings"

	"github.com/spf13/pflag"
)

// commands returns the verbs in the order of the work.
func commands() []*command {
	return []*command{
		{name: "new", args: "FILE", about: "write a starter rib file to fill in", least: 1, most: 1, run: (*app).newFile,
			flags: func(f *pflag.FlagSet, o *options) {
				f.BoolVar(&o.force, "force", false, "write over a file that is there")
			}},
		{name: "check", args: "FILE", about: "tell what is wrong or doubtful in a rib file", least: 1, most: 1, run: (*app).check,
			flags: func(f *pflag.FlagSet, o *options) {
				f.BoolVar(&o.json, "json", false, "print the whole report as JSON")
			}},
		{name: "build", args: "[FILE]", about: "write every drawing, cut file and list; without FILE, those of a demo rib", most: 1, run: (*app).build,
			flags: func(f *pflag.FlagSet, o *options) {
				f.StringVarP(&o.out, "output", "o", "", "folder to write to (default: ribwright-out/ and the rib file's name)")
				pictureFlag(f, o, "also draw every sheet and page as a picture")
				paperFlags(f, o)
			}},
		{name: "draw", args: "FILE", about: "write one drawing", least: 1, most: 1, run: (*app).draw,
			flags: func(f *pflag.FlagSet, o *options) {
				f.StringVar(&o.sheet, "sheet", "jig", "which: "+sheetHelp())
				f.StringVar(&o.format, "format", "", "svg, pdf, dxf or png (default: as the output's name says, else pdf; plates: svg)")
				pictureFlag(f, o, "draw a picture, of several pages one each, NAME-A1.png and so on")
				f.StringVarP(&o.out, "output", "o", "-", "file to write to; - is the standard output")
				ribFlag(f, o)
				f.BoolVar(&o.proof, "proof", false, "draw a rib with errors too, to see where they are: not to build from")
				paperFlags(f, o)
			}},
		{name: "list", args: "FILE", about: "print lists: cut list, glue areas, adhesive, mass, ordinates", least: 1, most: 1, run: (*app).list,
			flags: func(f *pflag.FlagSet, o *options) {
				f.StringVar(&o.table, "table", "all", "which list: "+strings.Join(append([]string{"all"}, tableNames...), ", "))
				f.StringVar(&o.format, "format", "", "md, csv or json (default: as the output's name says, else md)")
				f.StringVarP(&o.out, "output", "o", "-", "file to write to; - is the standard output")
				ribFlag(f, o)
			}},
		{name: "sections", args: "[NAME]", about: "list the built-in sections; or print and draw one, a NACA number or a table file", most: 1, run: (*app).sections,
			flags: func(f *pflag.FlagSet, o *options) {
				f.StringVar(&o.chord, "chord", "", "chord for lengths, with its unit, such as 48in or 1400mm (default: percents alone)")
				f.StringVar(&o.at, "at", "", "stations, such as 0,1.25,2.5 in percent of the chord, or with their unit (default: those of the table)")
				f.StringVar(&o.picture, "draw", "", "draw the section full size to this file: .svg, .pdf, .dxf or .png (without --chord: 250 mm long)")
				f.StringVar(&o.curvature, "curvature", "", "plot the curvature along both sides, doubtful points marked, to this file: .svg, .png or .pdf")
				f.StringVar(&o.format, "format", "", "md, csv or json (default: as the output's name says, else md)")
				f.StringVarP(&o.out, "output", "o", "-", "file for the list; - is the standard output")
			}},
		{name: "mix", args: "[FILE]", about: "say how to weigh a batch of adhesive, or what to add when too much was poured", most: 1, run: (*app).mix,
			flags: func(f *pflag.FlagSet, o *options) {
				o.mix.add(f)
				f.StringVar(&o.paper, "paper", "", "paper of the card as PDF, such as A4 or Letter (default: as the rib file says, else A4)")
				printedFlag(f, o)
				f.BoolVar(&o.json, "json", false, "print it as JSON, masses in grams")
			}},
		{name: "measure", args: "FILE MEASURED.csv", about: "compare a finished rib or a print, as measured, with the rib file", least: 2, most: 2, run: (*app).measure,
			flags: func(f *pflag.FlagSet, o *options) {
				f.StringVar(&o.tolerance, "tolerance", "1/32 in", "what may stand off the contour; over it the exit status is 1 (default: common practice)")
				ribFlag(f, o)
				f.BoolVar(&o.axes, "axes", false, "fit the scale along the chord and across it apart")
				f.StringVar(&o.format, "format", "", "md, csv or json")
				f.StringVarP(&o.picture, "output", "o", "", "draw the deviations, enlarged, to this file: .pdf, .svg, .dxf or .png")
			}},
		{name: "log", args: "FILE LOG.csv", about: "sum up the log of the build; \"log add LOG.csv\" adds a line to it, \"log new LOG.csv\" begins one", least: 1, most: 2, run: (*app).log, flags: flagsOfLog},
	}
}

// cutTables are the lists that need the plates laid out on sheets.
var cutTables = []string{"sheets", "holes", "buy"}

// tableNames are the lists that shop.Tables, shop.BarTables, shop.CutTables and shop.Buy make, in their order.
var tableNames = []string{
	"ribs",
	"wing",
	"wing-spars",
	"cut-list",
	"caps-and-blocks",
	"bends",
	"spars",
	"plates",
	"glue-areas",
	"butt-areas",
	"adhesive",
	"adhesive-joints",
	"coupons",
	"fasteners",
	"mass",
	"part-masses",
	"ordinates",
	"jig-blocks",
	"sessions",
	"batches",
	"bars",
	"bar-cuts",
	"scarfs",
	"sheets",
	"holes",
	"buy",
}

func ribFlag(f *pflag.FlagSet, o *options) {
	f.StringVar(&o.rib, "rib", "", "which rib of a wing, by its number or name, such as R3 (default: the only one; for lists: the whole set)")
}

func pictureFlag(f *pflag.FlagSet, o *options, about string) {
	f.IntVar(&o.png, "png", 0, fmt.Sprintf("%s: so many dots an inch, fewer where a side would have more than %d", about, mostDots))
}

// sheetHelp lists the sheets with what they are.
func sheetHelp() string {
	var out []string
	for _, s := range sheets() {
		out = append(out, s.name+" ("+s.about+")")
	}
	return strings.Join(out, ", ")
}

func find(name string) *command {
	for _, c := range commands() {
		if c.name == name {
			return c
		}
	}
	return nil
}

// help prints the help of the program or of one command.
func (a *app) help(args []string) error {
	if len(args) == 0 {
		var b strings.Builder
		b.WriteString("ribwright turns a rib file into full-size drawings, cut files and lists for a wooden truss rib.\n\nusage: ribwright COMMAND [options]\n\n")
		for _, c := range commands() {
			fmt.Fprintf(&b, "  %-25s %s\n", c.name+" "+c.args, c.about)
		}
		fmt.Fprintf(&b, "  %-25s %s\n\n", "help [COMMAND]", "print the options of a command")
		b.WriteString("Begin with \"ribwright new rib.toml\", change it to your plans, and run \"ribwright build rib.toml\".\n" +
			"Check the printed scale before cutting. Follow the approved plans and the adhesive maker's figures; the\n" +
			"builder's inspector, the authority and licensed practice decide, not this program.\n")
		_, err := fmt.Fprint(a.out, b.String())
		return err
	}
	c := find(args[0])
	if c == nil {
		return usage("there is no command %q", args[0])
	}
	_, err := fmt.Fprintf(a.out, "usage: ribwright %s [options] %s\n\n%s.\n\n%s", c.name, c.args,
		strings.ToUpper(c.about[:1])+c.about[1:], c.flagSet(&options{}).FlagUsages())
	return err
}
