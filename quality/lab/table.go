package lab

import (
	"fmt"
	"slices"
	"strings"

	"costrel/quality/stat"
	"costrel/unit"
)

// Fault is one thing in a table that could not be read.
type Fault struct {
	File   string `json:"file"`
	Line   int    `json:"line"`
	Col    int    `json:"col"` // number of the field, from 1
	Text   string `json:"text"`
	Reason string `json:"reason"`
}

// Faults are all faults of a table.
type Faults []Fault

// Error returns one line a fault.
func (f Faults) Error() string {
	lines := make([]string, len(f))
	for i, x := range f {
		lines[i] = fmt.Sprintf("%s:%d:%d: %q: %s", x.File, x.Line, x.Col, x.Text, x.Reason)
	}
	return strings.Join(lines, "\n")
}

// Note is something in a table that is not a reading: a line of text, a mean
// row, an unknown column, a missing value.
type Note struct {
	Line int    `json:"line"`
	Col  int    `json:"col,omitempty"`
	Text string `json:"text"`
	Why  string `json:"why"`
}

// Reading is one measured value.
type Reading struct {
	Key       string    `json:"key"`
	Variant   string    `json:"variant,omitempty"`
	Condition string    `json:"condition,omitempty"`
	Replicate string    `json:"replicate,omitempty"`
	Kind      unit.Kind `json:"quantity"`
	Value     float64   `json:"value"` // SI
	Unit      string    `json:"unit"`  // as written
	Censor    Censor    `json:"censor,omitempty"`
	Text      string    `json:"text"` // as written
	Row       int       `json:"row"`  // index of Table.Rows
	Line      int       `json:"line"`
	Col       int       `json:"col"`
}

// Row is one row of data.
type Row struct {
	Line     int                `json:"line"`
	Labels   map[string]string  `json:"labels"`
	Settings map[string]float64 `json:"settings"` // SI
}

// Tally says where the non-blank cells of a file went. They add up.
type Tally struct {
	Cells   int `json:"cells"`
	Heading int `json:"heading"`
	Reading int `json:"reading"` // measured, set and derived numbers
	Label   int `json:"label"`
	Missing int `json:"missing"` // marks of a missing value
	Note    int `json:"note"`    // cells of notes, mean rows and repeated headings
	Faulty  int `json:"faulty"`
}

// Column tells how a column was read.
type Column struct {
	Col       int       `json:"col"`
	Heading   string    `json:"heading"`
	Key       string    `json:"key"`
	Label     string    `json:"label"`
	Kind      unit.Kind `json:"quantity,omitempty"`
	Unit      string    `json:"unit,omitempty"`
	Role      Role      `json:"role"`
	Variant   string    `json:"variant,omitempty"`
	Condition string    `json:"condition,omitempty"`
	Replicate string    `json:"replicate,omitempty"`
}

// Table is a lab table as read.
type Table struct {
	File      string    `json:"file"`
	Hash      string    `json:"hash"` // SHA-256 of the file as it came, hexadecimal
	Sheet     string    `json:"sheet"`
	Separator string    `json:"separator"`
	Comma     bool      `json:"comma"` // decimals are written with a comma
	Columns   []Column  `json:"columns"`
	Rows      []Row     `json:"rows"`
	Readings  []Reading `json:"readings"`
	Derived   []Reading `json:"derived"` // numbers that the sender worked out; kept, not used
	Missing   []Note    `json:"missing"`
	Notes     []Note    `json:"notes"`
	Tally     Tally     `json:"tally"`
}

// Series is the readings of one quantity, variant and condition.
type Series struct {
	Key, Label, Variant, Condition string
	Kind                           unit.Kind
	Unit                           string // of the first reading, for display
	Scale                          stat.Scale
	Readings                       []Reading
	Rows                           []Row // of the table
}

// Series returns the series of the table in the order of its columns. All
// replicates of a quantity are in one series.
func (t *Table) Series() []Series {
	var out []Series
	at := map[[3]string]int{}
	for _, r := range t.Readings {
		k := [3]string{r.Key, r.Variant, r.Condition}
		i, ok := at[k]
		if !ok {
			i = len(out)
			at[k] = i
			s := Series{Key: r.Key, Variant: r.Variant, Condition: r.Condition, Kind: r.Kind, Unit: r.Unit, Rows: t.Rows}
			s.Label, s.Scale = ruleOf(r.Key)
			out = append(out, s)
		}
		out[i].Readings = append(out[i].Readings, r)
	}
	slices.SortStableFunc(out, func(a, b Series) int { return a.Readings[0].Col - b.Readings[0].Col })
	return out
}

// Find returns the series of a quantity; variant and condition may be empty
// where the table has one only.
func (t *Table) Find(key, variant, condition string) (Series, error) {
	var hit []Series
	for _, s := range t.Series() {
		if s.Key == key && (variant == "" || s.Variant == variant) && (condition == "" || s.Condition == condition) {
			hit = append(hit, s)
		}
	}
	switch len(hit) {
	case 1:
		return hit[0], nil
	case 0:
		return Series{}, fmt.Errorf("lab: %s: no readings of %s %s %s", t.File, key, variant, condition)
	}
	return Series{}, fmt.Errorf("lab: %s: %d series of %s: name variant and condition", t.File, len(hit), key)
}

// ruleOf returns label and scale of a quantity from the sheets.
func ruleOf(key string) (string, stat.Scale) {
	for _, s := range Sheets() {
		for _, r := range s.Rules {
			if r.Key == key && (r.Role == Measure || r.Role == Derived) {
				if r.Scale == "" {
					return r.Label, stat.Linear
				}
				return r.Label, r.Scale
			}
		}
	}
	return key, stat.Linear
}

// Values returns the values of the series, SI, and how many are censored.
func (s Series) Values() (x []float64, censored int) {
	for _, r := range s.Readings {
		x = append(x, r.Value)
		if r.Censor != Exact {
			censored++
		}
	}
	return x, censored
}

// Name returns the label of the series with variant and condition.
func (s Series) Name() string {
	n := s.Label
	if s.Variant != "" {
		n += ", " + s.Variant
	}
	if s.Condition != "" {
		n += ", " + s.Condition
	}
	return n
}

// Groups returns the readings of the series by a label of their rows, such as
// "mould", in the order of first appearance. Every row must have the label,
// and no reading may be censored.
func (s Series) Groups(label string) ([]stat.Group, error) {
	var out []stat.Group
	at := map[string]int{}
	for _, r := range s.Readings {
		if r.Row < 0 || r.Row >= len(s.Rows) {
			return nil, fmt.Errorf("lab: groups: line %d has no row", r.Line)
		}
		name := s.Rows[r.Row].Labels[label]
		if name == "" {
			return nil, fmt.Errorf("lab: groups: line %d has no %s", r.Line, label)
		}
		if r.Censor != Exact {
			return nil, fmt.Errorf("lab: groups: line %d: the reading %q is censored", r.Line, r.Text)
		}
		i, ok := at[name]
		if !ok {
			i = len(out)
			at[name] = i
			out = append(out, stat.Group{Name: name})
		}
		out[i].Values = append(out[i].Values, r.Value)
	}
	return out, nil
}

// Piece names the piece of a reading: "bottle 4".
func (s Series) Piece(r Reading) string {
	if r.Row >= 0 && r.Row < len(s.Rows) {
		for _, k := range []string{"bottle", "sample", "zone"} {
			if v := s.Rows[r.Row].Labels[k]; v != "" {
				return k + " " + v
			}
		}
	}
	return fmt.Sprintf("line %d", r.Line)
}
