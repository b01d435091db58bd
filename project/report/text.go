package report

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"text/tabwriter"
	"unicode/utf8"

	"costrel/quality"
)

// marks are the words of the verdicts with a shape that reads without colour.
var marks = map[string]string{
	"pass": "+ pass", "fail": "x FAIL", "close": "~ close", "not shown": "? not shown", "not computed": "- not computed",
}

// mark is the word of a verdict; a close one whose value itself is outside the
// limit says on which side.
func (v Verdict) mark() string {
	word := marks[v.Verdict]
	if v.Verdict == string(quality.Close) && v.Margin != nil {
		return beside(word, outside(v.Side, *v.Margin))
	}
	return word
}

// outside says on which side of its limit a value is that a close verdict lets
// pass; "" for one inside.
func outside(side string, margin float64) string {
	switch {
	case margin >= 0:
		return ""
	case side == string(quality.Min):
		return "under"
	}
	return "over"
}

// WriteText prints the board: limits worst first, then every figure, then
// what is missing, then cautions.
func (b Board) WriteText(w io.Writer) error {
	p := &printer{w: w}
	p.line("%s  (%s)", b.Design.Name, b.Design.Class)
	p.line("%s", strings.Repeat("=", utf8.RuneCountInString(b.Design.Name)+utf8.RuneCountInString(b.Design.Class)+4))
	p.line("")
	switch {
	case len(b.Verdicts) == 0 && b.elsewhere > 0:
		p.line("None of the %d limits of the design is on a figure of this stage.", b.elsewhere)
	case len(b.Verdicts) == 0:
		p.line("No limits are set. Add them under limits: in the design.")
	default:
		p.line("Limits, worst first")
		t := p.table()
		fmt.Fprintln(t, "  verdict\tfigure\tvalue\tband 95 %\tlimit\tmargin\t\towner")
		for _, v := range b.Verdicts {
			side := "≤"
			if v.Side == "min" {
				side = "≥"
			}
			value, band, margin, percent := "-", "-", "-", ""
			if v.Display != "" {
				value, margin = v.Display, typed(v.MarginDisplay)
				if v.HasPercent {
					percent = fmt.Sprintf("%+.1f %%", *v.MarginPercent)
				}
				if f, ok := b.figure(v.Figure); ok {
					band = f.band()
				}
			}
			owner := v.Owner
			if v.Source == "example" {
				owner += " (example)"
			}
			fmt.Fprintf(t, "  %s\t%s\t%s\t%s\t%s %s\t%s\t%s\t%s\n", v.mark(), v.Label, value, band, side, v.LimitDisplay, margin, percent, owner)
		}
		p.flush(t)
	}
	p.line("")
	p.line("Figures")
	t := p.table()
	for _, f := range b.Figures {
		note := ""
		if n := len(f.Origin.Warnings); n > 0 {
			note = fmt.Sprintf("! %d", n)
		}
		fmt.Fprintf(t, "  %s\t%s\t%s\t%s\t%s\n", f.Key, f.Label, f.Display, f.band(), note)
	}
	p.flush(t)
	if w := b.warnings(); len(w) > 0 {
		p.line("")
		p.line("Beware")
		for _, s := range w {
			p.wrapped("  ! ", s)
		}
	}
	if len(b.Problems) > 0 {
		p.line("")
		p.line("Left out")
		for _, q := range b.leftOut() {
			p.wrapped("  - ", q)
		}
	}
	if len(b.Cautions) > 0 {
		p.line("")
		p.line("Cautions")
		for _, c := range b.Cautions {
			p.wrapped("  * ", c.Title+" ("+c.Trigger+"). "+c.Text)
		}
	}
	p.line("")
	p.wrapped("", b.Note)
	return p.err
}

func (b Board) figure(key string) (Figure, bool) {
	for _, f := range b.Figures {
		if f.Key == key {
			return f, true
		}
	}
	return Figure{}, false
}

// band prints the 95 % band, or nothing when the figure has none.
func (f Figure) band() string {
	if f.Lo == f.Value && f.Hi == f.Value {
		return ""
	}
	lo, symbol, _ := strings.Cut(f.LoDisplay, " ")
	if _, other, _ := strings.Cut(f.HiDisplay, " "); other != symbol {
		lo = f.LoDisplay // the unit stands once where both ends have the same
	}
	return lo + " … " + f.HiDisplay
}

// warnings returns each warning once, with the figures that carry it.
func (b Board) warnings() []string {
	var order []string
	keys := map[string][]string{}
	for _, f := range b.Figures {
		for _, w := range f.Origin.Warnings {
			if keys[w] == nil {
				order = append(order, w)
			}
			if !slices.Contains(keys[w], f.Key) {
				keys[w] = append(keys[w], f.Key)
			}
		}
	}
	for i, w := range order {
		k := keys[w]
		if n := len(k); n > 3 {
			k = append(k[:2:2], fmt.Sprintf("and %d more", n-2))
		}
		order[i] = w + " [" + strings.Join(k, ", ") + "]"
	}
	return order
}

// WriteWhy prints the chain behind a figure: definition, equation, the numbers
// put in, sources, warnings, and the same for the figures it rests on.
func (b Board) WriteWhy(w io.Writer, key string) error {
	p := &printer{w: w}
	seen := map[string]bool{}
	if !p.why(b, key, "", seen) {
		return fmt.Errorf("no figure %q on this board", key)
	}
	return p.err
}

func (p *printer) why(b Board, key, indent string, seen map[string]bool) bool {
	f, ok := b.figure(key)
	if !ok {
		return false
	}
	p.line("%s%s = %s   (%s)", indent, f.Label, f.Display, f.Key)
	if seen[key] {
		p.line("%s  shown above", indent)
		return true
	}
	seen[key] = true
	in := indent + "  "
	p.wrapped(in, f.Definition)
	p.wrapped(in, f.Origin.Kind+": "+f.Origin.Method)
	if f.Origin.Equation != "" {
		p.line("%s%s", in, f.Origin.Equation)
	}
	if f.Origin.Substituted != "" {
		p.line("%s%s", in, f.Origin.Substituted)
	}
	for _, i := range f.Origin.Inputs {
		src := i.Kind
		if i.Source != "" {
			src += ", " + i.Source
		}
		p.line("%s%s = %s   %s (%s)", in, i.Symbol, i.Display, i.Label, src)
	}
	if f.Origin.Valid != "" {
		p.wrapped(in+"holds: ", f.Origin.Valid)
	}
	for _, r := range f.Origin.References {
		p.wrapped(in+"source: ", r)
	}
	for _, x := range f.Origin.Warnings {
		p.wrapped(in+"! ", x)
	}
	if len(f.Origin.Narrow) > 0 {
		how := ""
		if f.Origin.Banding != "" {
			how = " (" + f.Origin.Banding + ")"
		}
		p.wrapped(in, "band "+f.band()+how+"; what would narrow it:")
		for i, n := range f.Origin.Narrow {
			if i == 5 {
				break
			}
			p.line("%s  %s: %s  (%s)", in, n.Label, typed(n.Display), n.Basis)
		}
	}
	below := map[string]bool{}
	for _, i := range f.Origin.Inputs {
		if !strings.HasPrefix(i.Key, "design:") && !below[i.Key] {
			below[i.Key] = true
			p.line("")
			p.why(b, i.Key, indent+"    ", seen)
		}
	}
	return true
}

// leftOut lists the problems: figures that are left out for one reason stand
// together, a key once.
func (b Board) leftOut() []string {
	var reasons []string
	keys := map[string][]string{}
	for _, q := range b.Problems {
		if keys[q.Reason] == nil {
			reasons = append(reasons, q.Reason)
		}
		if !slices.Contains(keys[q.Reason], q.Key) {
			keys[q.Reason] = append(keys[q.Reason], q.Key)
		}
	}
	out := make([]string, len(reasons))
	for i, r := range reasons {
		k := keys[r]
		if n := len(k); n > 4 {
			k = append(k[:3:3], fmt.Sprintf("and %d more", n-3))
		}
		out[i] = strings.Join(k, ", ") + ": " + r
	}
	return out
}

// printer writes lines and remembers the first error.
type printer struct {
	w   io.Writer
	err error
}

func (p *printer) line(format string, args ...any) {
	if p.err == nil {
		_, p.err = fmt.Fprintf(p.w, format+"\n", args...)
	}
}

func (p *printer) table() *tabwriter.Writer { return tabwriter.NewWriter(p.w, 0, 0, 2, ' ', 0) }

func (p *printer) flush(t *tabwriter.Writer) {
	if err := t.Flush(); err != nil && p.err == nil {
		p.err = err
	}
}

// wrapped prints a paragraph under a prefix, at most 100 runes wide.
func (p *printer) wrapped(prefix, text string) {
	width := 100 - utf8.RuneCountInString(prefix)
	rest := strings.Repeat(" ", utf8.RuneCountInString(prefix))
	line, n := "", 0
	for _, word := range strings.Fields(text) {
		k := utf8.RuneCountInString(word)
		if n > 0 && n+1+k > width {
			p.line("%s%s", prefix, line)
			prefix, line, n = rest, "", 0
		}
		if n > 0 {
			line, n = line+" ", n+1
		}
		line, n = line+word, n+k
	}
	if n > 0 {
		p.line("%s%s", prefix, line)
	}
}
