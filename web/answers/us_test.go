package answers_test

import (
	"encoding/json"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"costrel/project/design"
	"costrel/project/report"
	"costrel/project/run"
	"costrel/unit"
	"costrel/web/api"
)

// metricNumber matches a number with a metric unit of a quantity that readers in
// the US have another unit for. Grams, g/cm³, cm²/s and the like are theirs too:
// their preferred unit is the same.
var metricNumber = func() *regexp.Regexp {
	var symbols []string
	for _, k := range unit.Table() {
		for _, u := range k.Units {
			if k.EU != k.US && unit.Metric(u.Symbol) && !slices.Contains(symbols, regexp.QuoteMeta(u.Symbol)) {
				symbols = append(symbols, regexp.QuoteMeta(u.Symbol))
			}
		}
	}
	slices.SortFunc(symbols, func(a, b string) int { return len(b) - len(a) })
	return regexp.MustCompile(`(^|[^\pL\d.])[-+−]?\d[\d.]*(e[-+]?\d+)?[ \x{a0}](` + strings.Join(symbols, "|") + `)($|[^\pL\d/·²³⁴(])`)
}()

// metricUnit matches a metric unit that heads a column or an axis.
var metricUnit = regexp.MustCompile(`(, |\[|\()(mm|µm|bar(\([ag]\))?|°C|kPa|MPa|mL|N)(\]|\)|$)`)

// constants are what an equation holds in units of its own: temperatures on the
// absolute scale, the acceleration of gravity, the bar of the trade convention on
// air, normal volumes, whose sum has its US unit behind it, and the mass m.
var constants = regexp.MustCompile(`[\d.]+ K\b|/ 1 bar|[\d.e+-]+ Nm³|= 1000 m `)

// asWritten are the parts of an answer, besides the text of the design, that are the
// words of the design, of a publication, or of no reader.
var asWritten = []string{".resolved.text", ".resolved.value", ".resolved.table.rows", ".references", ".unit_si", ".design.name", ".baseline.name", ".variant.name"}

// metricIn returns what a reader of US units is shown in metric ones, and marks
// that nobody spelled.
func metricIn(t *testing.T, answer any) []string {
	t.Helper()
	raw, err := json.Marshal(answer)
	if err != nil {
		t.Fatal(err)
	}
	var v any
	if err := json.Unmarshal(raw, &v); err != nil {
		t.Fatal(err)
	}
	var out []string
	var walk func(path string, v any)
	walk = func(path string, v any) {
		switch x := v.(type) {
		case map[string]any:
			if q, _ := x["quantity"].(string); path == ".resolved" && q == "" {
				delete(x, "display") // free text of the design
			}
			for k, y := range x {
				walk(path+"."+k, y)
			}
		case []any:
			for _, y := range x {
				walk(path, y)
			}
		case string:
			if path == ".text" || slices.ContainsFunc(asWritten, func(end string) bool { return strings.HasSuffix(path, end) }) {
				return
			}
			s := x
			if strings.HasSuffix(path, ".equation") || strings.HasSuffix(path, ".substituted") {
				s = constants.ReplaceAllString(s, "")
			}
			if metricNumber.MatchString(s) || metricUnit.MatchString(s) || strings.ContainsAny(s, "‹›") {
				out = append(out, fmt.Sprintf("%s: %q", path, x))
			}
		}
	}
	walk("", v)
	return out
}

// TestMetricIn shows that the check of TestUS can fail, and on what it does not.
func TestMetricIn(t *testing.T) {
	for text, found := range map[string]bool{
		"a wall of 0.25 mm": true,
		"at 23 °C: stiff":   true,
		"± 0.5 bar":         true,
		"(100 N)":           true,
		"vacuum, kPa":       true,
		"0..20 bar(a)":      true,
		"‹4 mm›":            true,
		"34.2 g of 1.34 g/cm³, 1e-8 cm²/s, 11 mg/L": false,
		"0.16 in at 73.4 °F, 5 psi":                 false,
	} {
		if got := metricIn(t, map[string]any{"warnings": []string{text}}); (len(got) > 0) != found {
			t.Errorf("%q: %v", text, got)
		}
	}
	if got := metricIn(t, map[string]any{"substituted": "R · 293.15 K / 1 bar", "resolved": []any{map[string]any{"text": "4 mm"}}}); len(got) > 0 {
		t.Errorf("exceptions: %v", got)
	}
}

// TestUS runs every example and every pack class in full for a reader of US units:
// no sentence, legend, axis or cell holds a metric unit where there is a US one.
// The same answer for the EU is full of them.
func TestUS(t *testing.T) {
	if testing.Short() {
		t.Skip("a full run of each example and pack class")
	}
	texts := examples(t)
	for _, class := range design.Classes() {
		text, err := design.Draft(class, nil)
		if err != nil {
			t.Fatal(err)
		}
		texts[class] = text
	}
	for name, text := range texts {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			doc, cache := load(t, name, text), run.NewCache(256)
			r, err := run.Full(t.Context(), doc, cache, nil)
			if err != nil {
				t.Fatal(err)
			}
			for _, sys := range []unit.System{unit.EU, unit.US, "us,length=mm,pressure=bar,temperature=°C", "eu,length=in,pressure=psi,vacuum=mbar,force=lbf"} {
				for _, s := range disagreeing(r, sys) {
					t.Error(s)
				}
			}
			var sheets []run.Sheet
			for _, stage := range []string{"inject", "reheat", "blow"} {
				sheet := r.ProcessSheet(stage)
				if len(sheet) == 0 {
					t.Errorf("no process sheet of the %s", stage)
				}
				sheets = append(sheets, sheet...)
			}
			raw, err := json.Marshal(sheets)
			if err != nil {
				t.Fatal(err)
			}
			s := serve(t, t.TempDir(), api.Options{})
			for _, said := range [][]string{
				metricIn(t, full(t, s, name, text, "us")), metricIn(t, ask(t, s, "/api/check", map[string]any{"name": name, "text": text, "units": "us"})),
				metricIn(t, report.NewDifference(run.Check(doc, cache), r, unit.US)), metricIn(t, json.RawMessage(unit.Spell(string(raw), unit.US))),
			} {
				for _, s := range said {
					t.Error(s)
				}
			}
			if eu := metricIn(t, full(t, s, name, text, "eu")); len(eu) < 100 {
				t.Errorf("only %d texts for the EU have a metric unit: is the check blind?", len(eu))
			}
		})
	}
}
