package ribfile

import (
	"fmt"
	"strings"

	"github.com/pelletier/go-toml/v2/unstable"

	"ribwright/geom/finding"
)

// kind is what a value of the file is.
type kind int

const (
	textKind kind = iota
	wholeKind
	decimalKind
	truthKind
	dateKind
	listKind
	tableKind
	brokenKind // its line is no TOML; a finding has been given
	workedKind // a figure that was worked out for a rib of a wing
)

// value is one value of the file, or a table, with its place.
type value struct {
	kind  kind
	key   string  // full, such as "spar[1].width"
	at    int     // byte offset of the value; of a table, its header or its first mention
	keyAt int     // byte offset of its key
	raw   string  // text: its content; numbers, dates: as written
	num   float64 // of what was worked out: a length in mm, an angle in degrees
	items []*value
	names []string // of fields, in the order of the file
	// fields of a table
	fields   map[string]*value
	declared bool // by a header of its own, or as an inline table or list: not to be declared again
	inline   bool // closed: nothing may be added
}

func newTable(key string, at int) *value {
	return &value{kind: tableKind, key: key, at: at, keyAt: at, fields: map[string]*value{}}
}

func (v *value) put(name string, child *value) {
	v.names = append(v.names, name)
	v.fields[name] = child
}

// grower builds the tree of values from the parser's expressions.
type grower struct {
	src    *source
	root   *value
	cur    *value // the table that bare keys go into
	fs     []finding.Finding
	base   int // offset in the source of what the parser was given
	end    int // offset behind the last expression
	halted bool
}

// grow reads the whole text. A value whose line cannot be read is kept as broken, and reading goes on with
// the next line; where a mistake may reach over several lines, reading stops, and halted is set.
func grow(src *source) *grower {
	g := &grower{src: src, root: newTable("", 0)}
	g.cur = g.root
	var p unstable.Parser
	p.Reset(src.data)
	for {
		for p.NextExpression() {
			g.expression(p.Expression())
		}
		if p.Error() == nil {
			return g
		}
		next, ok := g.syntax(&p)
		if !ok {
			g.halted = true
			return g
		}
		g.base, g.end = next, next
		p.Reset(src.data[next:])
	}
}

func (g *grower) tell(code string, key string, at int, message, fix string) {
	p := g.src.place(at)
	g.fs = append(g.fs, finding.Finding{Code: code, Message: message, Fix: fix, Key: key, File: g.src.file, Line: p.line, Column: p.column})
}

func (g *grower) expression(n *unstable.Node) {
	switch n.Kind {
	case unstable.KeyValue:
		g.end = g.keyValue(g.cur, n)
	case unstable.Table:
		g.header(n, false)
	case unstable.ArrayTable:
		g.header(n, true)
	}
}

// part is one part of a dotted key.
type part struct {
	name    string
	at, end int
}

func (g *grower) keyParts(n *unstable.Node) []part {
	var parts []part
	for it := n.Key(); it.Next(); {
		k := it.Node()
		at := g.base + int(k.Raw.Offset)
		parts = append(parts, part{string(k.Data), at, at + int(k.Raw.Length)})
	}
	return parts
}

func join(table, name string) string {
	if table == "" {
		return name
	}
	return table + "." + name
}

// header enters [a.b] or [[a.b]].
func (g *grower) header(n *unstable.Node, double bool) {
	parts := g.keyParts(n)
	first, last := parts[0], parts[len(parts)-1]
	g.end = last.end
	at := first.at
	for at > 0 && g.src.data[at-1] != '[' {
		at--
	}
	at--
	if double {
		at--
	}
	g.cur = newTable("", at) // takes the keys of a table that cannot be entered
	t := g.descend(g.root, parts[:len(parts)-1])
	if t == nil {
		return
	}
	key := join(t.key, last.name)
	old := t.fields[last.name]
	switch {
	case double && old == nil:
		old = &value{kind: listKind, key: key, at: at, keyAt: last.at}
		t.put(last.name, old)
		fallthrough
	case double && old.kind == listKind && !old.declared:
		g.cur = newTable(fmt.Sprintf("%s[%d]", key, len(old.items)), at)
		g.cur.declared = true
		old.items = append(old.items, g.cur)
	case old == nil:
		g.cur = newTable(key, at)
		g.cur.keyAt, g.cur.declared = last.at, true
		t.put(last.name, g.cur)
	case !double && old.kind == tableKind && !old.declared:
		old.declared, old.at, old.keyAt = true, at, last.at
		g.cur = old
	default:
		g.tell(CodeKeyDoubled, key, at, "["+key+"] stands in the file already, in line "+g.lineOf(old)+".",
			"Put all of its keys under one header, and take this one away.")
		if old.kind == tableKind && !old.inline {
			g.cur = old // so that keys written twice in the two halves show as well
		}
	}
}

func (g *grower) lineOf(v *value) string { return fmt.Sprint(g.src.place(v.keyAt).line) }

// descend walks dotted parts down from t, and makes the tables that are not there yet. It returns nil,
// with a finding, where something other than a table is in the way.
func (g *grower) descend(t *value, parts []part) *value {
	for _, p := range parts {
		child := t.fields[p.name]
		if child == nil {
			child = newTable(join(t.key, p.name), p.at)
			t.put(p.name, child)
		}
		if child.kind == listKind && !child.declared && len(child.items) > 0 {
			child = child.items[len(child.items)-1]
		}
		if child.kind != tableKind || child.inline {
			g.tell(CodeKeyDoubled, child.key, p.at, p.name+" has a value already, in line "+g.lineOf(child)+"; nothing can stand under it.",
				"Keep either the value or the table.")
			return nil
		}
		t = child
	}
	return t
}

// keyValue enters one key and its value into t, and returns the offset behind the value.
func (g *grower) keyValue(t *value, n *unstable.Node) int {
	parts := g.keyParts(n)
	last := parts[len(parts)-1]
	start := g.src.skip(last.end)
	start = g.src.skip(start + 1) // behind "="
	table := g.descend(t, parts[:len(parts)-1])
	if table == nil {
		table = newTable("", last.at)
	}
	v, end := g.value(n.Value(), join(table.key, last.name), start)
	v.keyAt = last.at
	if old := table.fields[last.name]; old != nil {
		g.tell(CodeKeyDoubled, v.key, last.at, last.name+" stands twice; the first is in line "+g.lineOf(old)+".", "Take one of the two away.")
		return end
	}
	table.put(last.name, v)
	return end
}

var kinds = map[unstable.Kind]kind{
	unstable.String: textKind, unstable.Integer: wholeKind, unstable.Float: decimalKind, unstable.Bool: truthKind,
	unstable.LocalDate: dateKind, unstable.LocalTime: dateKind, unstable.LocalDateTime: dateKind, unstable.DateTime: dateKind,
}

// value reads the value that starts at the offset, and returns the offset behind it. The parser gives
// no ranges for lists and inline tables, so the walk keeps its own count.
func (g *grower) value(n *unstable.Node, key string, at int) (*value, int) {
	v := &value{key: key, at: at, keyAt: at, declared: true}
	end := at + 1
	switch n.Kind {
	case unstable.Array:
		v.kind = listKind
		for it := n.Children(); it.Next(); {
			var item *value
			item, end = g.value(it.Node(), fmt.Sprintf("%s[%d]", key, len(v.items)), g.src.skip(end))
			v.items = append(v.items, item)
		}
		return v, g.src.skip(end) + 1
	case unstable.InlineTable:
		v.kind, v.fields = tableKind, map[string]*value{}
		for it := n.Children(); it.Next(); {
			end = g.keyValue(v, it.Node())
		}
		v.inline = true
		return v, g.src.skip(end) + 1
	}
	v.kind, v.raw = kinds[n.Kind], string(n.Data)
	return v, at + int(n.Raw.Length)
}

// syntax tells what the parser could not read, and returns where reading can go on.
func (g *grower) syntax(p *unstable.Parser) (next int, ok bool) {
	var at int
	message := "expected a key"
	if pe, is := p.Error().(*unstable.ParserError); is {
		at, message = g.base+int(p.Range(pe.Highlight).Offset), pe.Message
	}
	at = min(at, max(0, len(g.src.data)-1))
	start := g.src.skip(g.end)
	if g.end > g.base {
		start = g.src.skip(g.src.lineEnd(g.end))
	}
	start = min(start, at)
	line := string(g.src.data[start:g.src.lineEnd(start)])
	name, rest, isValue := strings.Cut(line, "=")
	name, rest = strings.TrimSpace(name), strings.TrimSpace(rest)
	words := syntaxWords(message, line)
	if isValue {
		words = valueWords(words, name, rest)
	}
	g.tell(CodeSyntax, "", at, words[0], words[1])
	if !isValue || g.src.line(start) != g.src.line(at) || mayGoOn(rest) || strings.ContainsAny(name, "[]{}\"'#") {
		return g.stop()
	}
	table := g.cur
	for dot := strings.IndexByte(name, '.'); dot >= 0; dot = strings.IndexByte(name, '.') {
		if table = g.descend(table, []part{{strings.TrimSpace(name[:dot]), start, start + dot}}); table == nil {
			return g.stop()
		}
		name = strings.TrimSpace(name[dot+1:])
	}
	if table.fields[name] == nil {
		table.put(name, &value{kind: brokenKind, key: join(table.key, name), at: at, keyAt: start})
	}
	return min(g.src.lineEnd(at)+1, len(g.src.data)), true
}

// stop ends the reading at the finding just told, and says so.
func (g *grower) stop() (next int, ok bool) {
	g.fs[len(g.fs)-1].Fix += " What follows has not been read yet."
	return 0, false
}

// mayGoOn reports whether a value that starts so may reach into the next lines.
func mayGoOn(value string) bool {
	return value != "" && (strings.ContainsRune("[{", rune(value[0])) || strings.HasPrefix(value, `"""`) || strings.HasPrefix(value, "'''"))
}
