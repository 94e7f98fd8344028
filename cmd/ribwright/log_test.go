package main

import (
	"bufio"
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"ribwright/geom/ribfile"
	"ribwright/geom/riblog"
)

// logChild names the log that a child of TestKilledWhileAppending appends to, and logRun its number.
const logChild, logRun = "RIBWRIGHT_TEST_LOG", "RIBWRIGHT_TEST_RUN"

// addLine appends a line for a rib whose note can be worked out from its name.
func addLine(name, rib string) error {
	given := map[string]string{"rib": rib, "batch": "1", "a": "5.6 g", "mass": "241.5 g", "note": noteOf(rib)}
	_, err := appendLog(name, func(data []byte) (riblog.Line, error) {
		line, found := riblog.Append(name, data, given, ribfile.MM)
		if len(found) > 0 {
			return line, fmt.Errorf("%v", found)
		}
		return line, nil
	})
	return err
}

func noteOf(rib string) string {
	return strings.Repeat("planed, \"dry\"; ", 3) + "rib " + rib + " done"
}

// TestLogChild is the process that TestKilledWhileAppending kills: it says each line when appendLog has confirmed it.
func TestLogChild(t *testing.T) {
	name := os.Getenv(logChild)
	if name == "" {
		t.Skip("run by TestKilledWhileAppending")
	}
	for i := 0; ; i++ {
		rib := fmt.Sprintf("%s-%d", os.Getenv(logRun), i)
		if err := addLine(name, rib); err != nil {
			fmt.Println("error", err)
			os.Exit(3)
		}
		fmt.Println("confirmed", rib)
	}
}

// TestKilledWhileAppending kills a process 200 times at random moments while it appends: every line that it confirmed
// is in the log, once and whole, and no line is half written.
func TestKilledWhileAppending(t *testing.T) {
	const kills = 200
	name := filepath.Join(t.TempDir(), "rib-log.csv")
	rnd := rand.New(rand.NewPCG(5, 8))
	confirmed := map[string]bool{}
	unfinished := 0
	for run := range kills {
		child := exec.Command(os.Args[0], "-test.run=^TestLogChild$")
		child.Env = append(os.Environ(), logChild+"="+name, fmt.Sprintf("%s=%d", logRun, run))
		out, err := child.StdoutPipe()
		if err != nil {
			t.Fatal(err)
		}
		if err := child.Start(); err != nil {
			t.Fatal(err)
		}
		var kill sync.Once
		wait := time.Duration(rnd.Int64N(int64(6 * time.Millisecond)))
		for lines := bufio.NewScanner(out); lines.Scan(); {
			rib, ok := strings.CutPrefix(lines.Text(), "confirmed ")
			if !ok {
				t.Errorf("the child says %q", lines.Text())
				break
			}
			confirmed[rib] = true
			kill.Do(func() { // it is at work: now, at any moment
				go func() {
					time.Sleep(wait)
					_ = child.Process.Kill()
				}()
			})
		}
		_ = child.Wait()
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if _, torn := riblog.Tail(data); len(torn) > 0 {
			unfinished++
		}
	}
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	seen := map[string]int{}
	for i, l := range strings.Split(strings.TrimSuffix(string(data), "\n"), "\n") {
		rib, _, _ := strings.Cut(l, ",")
		want := fmt.Sprintf("%s,,,1,5.6,,,,,,,241.5,,,,\"%s\"", rib, strings.ReplaceAll(noteOf(rib), `"`, `""`))
		if i == 0 {
			want = strings.TrimSuffix(string(riblog.Header(ribfile.MM)), "\n")
		}
		if l != want {
			t.Fatalf("line %d is %q, want %q", i+1, l, want)
		}
		seen[rib]++
	}
	l, found := riblog.Read(name, data, ribfile.MM)
	if len(found) > 0 || len(l.Entries) != len(seen)-1 {
		t.Errorf("%d lines are read as %d: %v", len(seen)-1, len(l.Entries), found)
	}
	for rib := range confirmed {
		if seen[rib] != 1 {
			t.Errorf("rib %s was confirmed, and stands %d times in the log", rib, seen[rib])
		}
	}
	if len(confirmed) < kills {
		t.Errorf("only %d lines were confirmed", len(confirmed))
	}
	t.Logf("%d kills, %d lines confirmed, %d in the log, %d times a line without its end", kills, len(confirmed), len(l.Entries), unfinished)
}

// TestAppendTogether appends from many sides at once: every line is there, whole.
func TestAppendTogether(t *testing.T) {
	name := filepath.Join(t.TempDir(), "rib-log.csv")
	const writers, each = 8, 12
	var all sync.WaitGroup
	for w := range writers {
		all.Go(func() {
			for i := range each {
				if err := addLine(name, fmt.Sprintf("%d-%d", w, i)); err != nil {
					t.Error(err)
				}
			}
		})
	}
	all.Wait()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	l, found := riblog.Read(name, data, ribfile.MM)
	if len(found) > 0 || len(l.Entries) != writers*each || bytes.Count(data, []byte("rib,kind")) != 1 {
		t.Errorf("%d lines, want %d; %v", len(l.Entries), writers*each, found)
	}
	for _, e := range l.Entries {
		if e.Note != noteOf(e.Rib) {
			t.Errorf("line %d: %+v", e.Line, e)
		}
	}
}

// TestTornLine cuts the last line off at every place, as a power cut may, also with the zeros that some file systems leave:
// it is never counted nor joined to the next line, and what there was of it is set aside.
func TestTornLine(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "rib-log.csv")
	for _, rib := range []string{"1", "2"} {
		if err := addLine(name, rib); err != nil {
			t.Fatal(err)
		}
	}
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	first := bytes.LastIndexByte(data[:len(data)-1], '\n') + 1
	for cut := first; cut < len(data); cut++ {
		for _, tail := range []string{"", "\x00\x00\x00"} {
			torn := string(data[first:cut]) + tail
			if err := os.WriteFile(name, append(bytes.Clone(data[:cut]), tail...), 0o666); err != nil {
				t.Fatal(err)
			}
			os.Remove(name + ".torn")
			code, out, msg := call("log", "add", name, "--rib", "3", "--mass", "240g")
			got, _ := os.ReadFile(name)
			want := string(data[:first]) + "3,,,,,,,,,,,240,,,,\n"
			aside, _ := os.ReadFile(name + ".torn")
			switch {
			case code != exitOK || !strings.Contains(out, "line 3 is on the disk: rib 3, mass_g 240"):
				t.Fatalf("cut at %d: exit status %d, %s %s", cut, code, out, msg)
			case string(got) != want:
				t.Fatalf("cut at %d: got %q, want %q", cut, got, want)
			case torn != "" && (string(aside) != torn+"\n" || !strings.Contains(msg, "set aside")):
				t.Fatalf("cut at %d: set aside %q, want %q; %s", cut, aside, torn, msg)
			case torn == "" && (len(aside) > 0 || msg != ""):
				t.Fatalf("cut at %d: set aside %q; %s", cut, aside, msg)
			}
		}
	}
	// Headings torn at a log's very first line.
	if err := os.WriteFile(name, []byte("rib,kind,da"), 0o666); err != nil {
		t.Fatal(err)
	}
	if code, _, msg := call("log", "add", name, "--rib", "1"); code != exitOK || !strings.Contains(msg, "set aside") {
		t.Error(code, msg)
	}
	if got, _ := os.ReadFile(name); string(got) != string(riblog.Header(ribfile.MM))+"1,,,,,,,,,,,,,,,\n" {
		t.Errorf("got %q", got)
	}
}

// TestLogAdd holds what may be written and what is refused: then no file is made or changed.
func TestLogAdd(t *testing.T) {
	dir := t.TempDir()
	german := filepath.Join(dir, "german.csv")
	const before = "\ufeffNote;Rib;Mass (g);Batch;A;B\r\nsauber;1;241,5;1;5,6;5,6\r\n"
	for _, c := range []struct {
		name, file, before string
		args               []string
		code               int
		says, after        string
	}{
		{"new, second side", "a.csv", "", []string{"--rib", "7", "--side", "second", "--batch", "4", "--a", "5.6 g", "--b", "0.2 oz"}, exitOK, "line 2 is on the disk: rib 7, second_batch 4, second_a_g 5.6, second_b_g 5.6699",
			string(riblog.Header(ribfile.MM)) + "7,,,,,,4,5.6,5.6699,,,,,,,\n"},
		{"new, in inches", "b.csv", "", []string{"--inches", "--batch", "#3", "--coupon-load", "270 lbf", "--temperature", "21 C", "--wood-failure", "85%"}, exitOK, "batch 3",
			"rib,kind,date,batch,a_oz,b_oz,second_batch,second_a_oz,second_b_oz,temperature_f,humidity_percent,mass_oz,coupon_load_lbf,wood_failure_percent,signed,note\n,,,3,,,,,,69.8,,,270,85,,\n"},
		{"a spreadsheet's manner", "german.csv", before, []string{"--rib", "2", "--mass", "238.25", "--batch", "2", "--a", "5.7", "--note", "a; b"}, exitOK, "line 3", before + "\"a; b\";2;238,25;2;5,7 g;\r\n"},
		{"no such column", "german.csv", before, []string{"--rib", "2", "--humidity", "55"}, exitFound, "no column for \"humidity\"", before},
		{"nothing to be about", "c.csv", "", []string{"--mass", "240"}, exitFound, "names neither a rib nor a batch", ""},
		{"no mass", "c.csv", "", []string{"--rib", "1", "--mass", "240 stone"}, exitFound, "unit \"stone\"", ""},
		{"a mass that cannot be", "c.csv", "", []string{"--rib", "1", "--mass", "240 kg"}, exitFound, "cannot be", ""},
		{"an open quotation mark", "d.csv", "rib,note\n1,\"clean\n", []string{"--rib", "2"}, exitFound, "would not be read as it is meant", "rib,note\n1,\"clean\n"},
		{"headings alone, of something else", "e.csv", "x,y\n", []string{"--rib", "2"}, exitFound, "names neither a column of ribs", "x,y\n"},
		{"both ways at once", "c.csv", "", []string{"--rib", "1", "--side", "second", "--batch", "3", "--second-batch", "4"}, exitUsage, "leave --second-batch away", ""},
		{"another side", "c.csv", "", []string{"--rib", "1", "--side", "third"}, exitUsage, "first or second", ""},
		{"for the summary", "c.csv", "", []string{"--rib", "1", "-o", "x.pdf"}, exitUsage, "for the summary", ""},
	} {
		name := filepath.Join(dir, c.file)
		if c.before != "" {
			if err := os.WriteFile(name, []byte(c.before), 0o666); err != nil {
				t.Fatal(err)
			}
		}
		code, out, msg := call(append([]string{"log", "add", name}, c.args...)...)
		got, _ := os.ReadFile(name)
		if code != c.code || !strings.Contains(out+msg, c.says) || string(got) != c.after {
			t.Errorf("%s: exit status %d, %q, %q; the log is %q, want %q", c.name, code, out, msg, got, c.after)
		}
	}
	if _, err := os.Stat(german + ".torn"); err == nil {
		t.Error("something was set aside")
	}
	if _, err := os.Stat(filepath.Join(dir, "c.csv")); err == nil {
		t.Error("a refused line made a log")
	}
	if code, _, _ := call("log", "add", dir, "--rib", "1"); code != exitUsage {
		t.Errorf("a folder for a log: exit status %d", code)
	}
}

// logLines is a log of eight ribs, one of them heavy.
func logLines() string {
	var b strings.Builder
	b.Write(riblog.Header(ribfile.MM))
	for i, m := range []float64{240.1, 238.6, 242.0, 239.4, 259.0, 241.2, 240.8, 239.9} {
		fmt.Fprintf(&b, "%d,,,%d,5.8,5.8,%d,3.2,3.2,21,50,%.1f,,,,\n", i+1, 2*i+1, 2*i+2, m)
	}
	for i := range 16 {
		fmt.Fprintf(&b, ",,,%d,,,,,,,,,1300,90,,\n", i+1)
	}
	return b.String()
}

// TestLogSummary holds the summary's exit status, words and files, twice with the same bytes.
func TestLogSummary(t *testing.T) {
	dir := t.TempDir()
	rib, name := demoFile(t, "marsh-wren.toml"), filepath.Join(dir, "rib-log.csv")
	for _, c := range []struct {
		name, more string
		args       []string
		code       int
		out, msg   []string
	}{
		{"all well", "", nil, exitOK, []string{"|      26 |                8 |                8 |       8 |          31 |", "stands out: heavy", "passed"}, nil},
		{"a coupon that is still to break", "9,,,17,5.8,5.8,,,,,,,,,,\n", nil, exitOK, []string{"none yet", "1 of 17 batches has no sample joint yet"}, []string{"rib-log.csv:26:1: warning: Batch 17: no sample joint"}},
		{"a coupon that failed", "9,,,17,5.8,5.8,,,,,,,900,40,,\n", nil, exitFound, []string{"FAILED"}, []string{":26:", "error: Batch 17", "Glued from it: rib 9."}},
		{"a wrong ratio", "9,,,17,5.8,5.0,,,,,,,1300,90,,\n", nil, exitOK, []string{"16.0"}, []string{"warning: Batch 17: A over B is off by more than 2 %: 5.80 g of A on 5.00 g of B has too much A, by 16 %."}},
		{"torn", "9,,,17,5.8", nil, exitOK, nil, []string{"rib-log.csv:26:1: warning: The last line, 26, has no end"}},
		{"no number", "9,,,17,5.x,,,,,,,,,,,\n", nil, exitFound, nil, []string{"rib-log.csv:26:8: error: a: "}},
		{"CSV", "", []string{"--format", "csv"}, exitOK, []string{"batch,line,sides,a_g,b_g,ratio_off_percent,temperature_c,humidity_percent,coupon_load_n,wood_failure_percent,state", "5,rib,6,9,10,259,"}, nil},
		{"JSON", "", []string{"--format", "json"}, exitOK, []string{`"id": "log-masses"`}, nil},
	} {
		if err := os.WriteFile(name, []byte(logLines()+c.more), 0o666); err != nil {
			t.Fatal(err)
		}
		plot := filepath.Join(dir, "plot.svg")
		code, out, msg := call(append([]string{"log", rib, name, "-o", plot}, c.args...)...)
		if code != c.code {
			t.Errorf("%s: exit status %d, want %d; %s", c.name, code, c.code, msg)
		}
		for _, w := range c.out {
			if !strings.Contains(out, w) {
				t.Errorf("%s: %q is not in\n%s", c.name, w, out)
			}
		}
		for _, w := range c.msg {
			if !strings.Contains(msg, w) {
				t.Errorf("%s: %q is not in\n%s", c.name, w, msg)
			}
		}
		if len(c.msg) == 0 && msg != "" {
			t.Errorf("%s: %s", c.name, msg)
		}
		one, _ := os.ReadFile(plot)
		if _, again, _ := call(append([]string{"log", rib, name, "-o", plot}, c.args...)...); again != out {
			t.Errorf("%s: the second summary differs", c.name)
		}
		if two, _ := os.ReadFile(plot); !bytes.Equal(one, two) {
			t.Errorf("%s: the second plot has other bytes", c.name)
		}
	}
	before, _ := os.ReadFile(name)
	for _, c := range [][]string{{"log", rib}, {"log", "new", name}, {"log", rib, name, "--rib", "1"}, {"log", rib, name, "-o", name}, {"log", rib, name, "-o", "x.dxf"}, {"log", rib, filepath.Join(dir, "none.csv")}} {
		if code, _, msg := call(c...); code != exitUsage || msg == "" {
			t.Errorf("%q: exit status %d, %s", c, code, msg)
		}
	}
	if after, _ := os.ReadFile(name); !bytes.Equal(before, after) {
		t.Error("the log was changed")
	}
	fresh := filepath.Join(dir, "new.csv")
	if code, _, _ := call("log", "new", fresh, "--inches"); code != exitOK {
		t.Error("no new log")
	}
	if got, _ := os.ReadFile(fresh); !bytes.Equal(got, riblog.Header(ribfile.Inch)) {
		t.Errorf("got %q", got)
	}
}
