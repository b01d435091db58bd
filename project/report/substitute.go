package report

import (
	"slices"
	"strings"
	"sync"
	"unicode"

	"costrel/figure"
	"costrel/unit"
)

// substitute puts the numbers of the inputs into the equation of a figure:
// "F = SF 9.80665 m/s² m" becomes "F = 1.5 · 9.80665 m/s² · 1588 g → ...".
//
// Replaced is a word that is the symbol of an input. Units (after a number,
// written without spaces as in m/s², or in square brackets), functions and
// what stands alone before an equals sign are not; a symbol without a value
// stays a letter. Temperatures go in as kelvin, whatever the reader's unit,
// for equations divide and multiply by them, and gas goes in as normal cubic
// metres, for the standard cubic foot is taken at another temperature. Where a
// difference is taken the numbers have six digits. A part after a comma without an
// equals sign is a remark and stays. An equation into which nothing can be put
// gives nothing.
func substitute(f figure.Figure, sys unit.System, money string) string {
	if !strings.Contains(f.Origin.Equation, "=") {
		return ""
	}
	values := map[string]string{}
	digits := fewDigits
	if strings.Contains(f.Origin.Equation, " - ") {
		digits = 6
	}
	for _, in := range f.Origin.Inputs {
		if _, twice := values[in.Symbol]; twice || in.Kind == "" || in.Origin == "" {
			continue
		}
		values[in.Symbol] = putIn(in.Kind, unitBeside(f, in, sys), in.Value, sys, money, digits)
	}
	tokens := lex(f.Origin.Equation, values)
	replace(tokens, values)
	if !slices.ContainsFunc(tokens, func(t token) bool { return t.kind == value }) {
		return ""
	}
	out, result := write(tokens)+" → ", showIn(f.Kind, inUnit(f.Key, sys), f.Value, sys, money)
	if in := unit.Preferred(f.Kind, sys); normal(f.Kind) && in != unit.Preferred(f.Kind, unit.EU) {
		out += showIn(f.Kind, "", f.Value, unit.EU, money) + " = "
	}
	return out + result
}

// fewDigits is how many digits the numbers of a board have.
const fewDigits = 4

// putIn prints an input as it stands in an equation.
func putIn(k unit.Kind, symbol string, si float64, sys unit.System, money string, digits int) string {
	switch {
	case k == unit.TemperaturePoint:
		return unit.Format(k, si, "K", digits+1)
	case normal(k):
		symbol = unit.Preferred(k, unit.EU)
	case digits == fewDigits:
		return showIn(k, symbol, si, sys, money)
	case symbol == "" && k == unit.Time:
		symbol = timeUnit(si, sys)
	case symbol == "":
		symbol = unit.Preferred(k, sys)
	}
	return currency(unit.Format(k, si, symbol, digits), money)
}

// normal tells whether a quantity holds a volume of gas at a stated state.
func normal(k unit.Kind) bool {
	switch k {
	case unit.NormalVolume, unit.NormalFlow, unit.NormalVolumePerThousand, unit.NormalEnergy:
		return true
	}
	return false
}

type tokenKind int

const (
	operator tokenKind = iota
	word               // a symbol, replaced where an input has it
	function
	number // with its unit
	verbatim
	opening
	closing
	power // ² and the like, on what stands before
	value // a word replaced
)

type token struct {
	kind tokenKind
	text string
	gap  bool // space before it
}

// functions are names that are never symbols; any other name is a function where a
// bracket follows it without a space.
var functions = []string{"exp", "ln", "log", "max", "min", "sqrt", "sin", "cos", "tan", "atan"}

// atoms are the single units of all units: m, s and mol of m/s² and mol/s.
var atoms = sync.OnceValue(func() map[string]bool {
	out := map[string]bool{}
	for _, k := range unit.Kinds() {
		for _, u := range unit.Units(k) {
			for _, a := range split(u.Symbol) {
				out[a] = true
			}
		}
	}
	return out
})

// split returns the single units of a unit, without their powers.
func split(symbol string) []string {
	return strings.FieldsFunc(symbol, func(r rune) bool { return strings.ContainsRune("/·() ", r) || raised(r) })
}

// lex splits an equation. A unit alone after a number yields to a symbol of
// the same letters: "2 t" with an input t is twice t, not two tonnes.
func lex(eq string, symbols map[string]string) []token {
	var out []token
	rs := []rune(eq)
	gap := false
	for i := 0; i < len(rs); {
		j := i + 1
		kind := operator
		switch r := rs[i]; {
		case r == ' ':
			gap, i = true, j
			continue
		case r == '[':
			for j < len(rs) && rs[j-1] != ']' {
				j++
			}
			kind = verbatim
		case r == '(':
			kind = opening
		case r == ')':
			kind = closing
		case raised(r):
			kind = power
		case unicode.IsDigit(r):
			for j < len(rs) && (unicode.IsDigit(rs[j]) || rs[j] == '.' && j+1 < len(rs) && unicode.IsDigit(rs[j+1])) {
				j++
			}
			k := j
			for k < len(rs) && rs[k] == ' ' {
				k++
			}
			end, compound := unitAt(rs, k)
			name := string(rs[k:end])
			if _, taken := symbols[name]; end > k && (compound || !taken && isUnit(name)) {
				j = end
			}
			kind = number
		case letter(r):
			end, compound := unitAt(rs, i)
			if compound {
				j, kind = end, verbatim
				break
			}
			for j < len(rs) && (letter(rs[j]) || unicode.IsDigit(rs[j]) || rs[j] == '_') {
				j++
			}
			kind = word
			if j < len(rs) && rs[j] == '(' || slices.Contains(functions, string(rs[i:j])) {
				kind = function
			}
		}
		out = append(out, token{kind: kind, text: string(rs[i:j]), gap: gap})
		gap, i = false, j
	}
	return out
}

// isUnit reports whether every part of a name is a unit.
func isUnit(name string) bool {
	parts := split(name)
	for _, p := range parts {
		if !atoms()[p] {
			return false
		}
	}
	return len(parts) > 0
}

// unitAt reads what may be a unit at i: letters, signs and powers joined by a
// slash or a dot without spaces. compound is true where there is such a joint
// and all parts are units.
func unitAt(rs []rune, i int) (end int, compound bool) {
	depth := 0
	j := i
	defer func() { compound = compound && isUnit(string(rs[i:end])) }()
	for j < len(rs) {
		r := rs[j]
		switch {
		case letter(r) || r == '°' || r == '%' || r == 'µ' || raised(r):
		case (r == '/' || r == '·') && j > i && j+1 < len(rs) && (letter(rs[j+1]) || rs[j+1] == '('):
			compound = true
		case r == '(' && j > i && rs[j-1] == '/':
			depth++
		case r == ')' && depth > 0:
			depth--
		default:
			return j, compound
		}
		j++
	}
	return j, compound
}

// replace turns the words that have a value into it, part by part.
func replace(tokens []token, values map[string]string) {
	depth, from := 0, 0
	for i := 0; i <= len(tokens); i++ {
		switch {
		case i == len(tokens) || depth == 0 && tokens[i].text == ",":
			replacePart(tokens[from:i], values)
			from = i + 1
		case tokens[i].kind == opening:
			depth++
		case tokens[i].kind == closing:
			depth--
		}
	}
}

func replacePart(part []token, values map[string]string) {
	equals := slices.IndexFunc(part, func(t token) bool { return t.text == "=" })
	if equals < 0 {
		for i := range part { // a remark: nothing is multiplied
			part[i].kind = operator
		}
		return
	}
	start := 0
	switch head := part[:equals]; {
	case len(head) == 1:
		start = equals // the symbol that the part defines
	case len(head) > 3 && head[0].kind == function && head[1].kind == opening && slices.IndexFunc(head, func(t token) bool { return t.kind == closing }) == len(head)-1:
		start = equals // a function that the part defines
	}
	for i := start; i < len(part); i++ {
		t := &part[i]
		v, ok := values[t.text]
		if t.kind != word || !ok {
			continue
		}
		after := i > 0 && part[i-1].kind == operator && part[i-1].text != "="
		switch {
		case i+1 < len(part) && part[i+1].kind == power,
			after && strings.HasPrefix(v, "-"),
			after && part[i-1].text == "/" && strings.Contains(v, "/"):
			v = "(" + v + ")"
		}
		t.kind, t.text = value, v
	}
}

// write joins the tokens; a dot goes between two factors where one of them is
// not a mere letter.
func write(tokens []token) string {
	var b strings.Builder
	for i, t := range tokens {
		if t.gap && i > 0 {
			p := tokens[i-1].kind
			before := p == word || p == number || p == verbatim || p == closing || p == power || p == value
			called := t.kind == function && i+1 < len(tokens) && tokens[i+1].kind == opening
			behind := t.kind == word || called || t.kind == number || t.kind == opening || t.kind == value
			letters := (p == word || p == power) && t.kind == word || p == verbatim && t.kind == word
			if before && behind && !letters {
				b.WriteString(" ·")
			}
			b.WriteByte(' ')
		}
		b.WriteString(t.text)
	}
	return b.String()
}

func letter(r rune) bool {
	return r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= 'α' && r <= 'ω' || r >= 'Α' && r <= 'Ω' && r != 'Σ'
}

func raised(r rune) bool { return strings.ContainsRune("⁰¹²³⁴⁵⁶⁷⁸⁹⁻", r) }
