package run

import (
	"encoding/json"
	"math"
	"slices"

	"costrel/unit"
)

// Plot is a chart of a stage, in SI; whoever draws it chooses the units.
type Plot struct {
	Key    string   `json:"key"`   // stable: "wall.arc"
	Stage  string   `json:"stage"` // stage that it tells of; empty: the one that makes it
	Title  string   `json:"title"`
	X      Axis     `json:"x"`
	Y      Axis     `json:"y"`
	Series []Series `json:"series"`
	Marks  []Mark   `json:"marks"`
	Note   string   `json:"note,omitempty"` // what a reader must know
}

// In returns the plot with its words in the units of a system, and the axes with the
// unit in which they are drawn.
func (p Plot) In(s unit.System) Plot {
	p.Title, p.Note = unit.Spell(p.Title, s), unit.Spell(p.Note, s)
	p.X, p.Y = p.X.In(s), p.Y.In(s)
	p.Marks = slices.Clone(p.Marks)
	for i := range p.Marks {
		p.Marks[i].Label = unit.Spell(p.Marks[i].Label, s)
	}
	p.Series = slices.Clone(p.Series)
	for i := range p.Series {
		p.Series[i].Name = unit.Spell(p.Series[i].Name, s)
	}
	return p
}

// Axis is one axis of a plot.
type Axis struct {
	Label string    `json:"label"`
	Kind  unit.Kind `json:"quantity"`
	Unit  string    `json:"unit,omitempty"` // preferred unit, empty: that of the kind
}

// In returns the axis with its label and its unit for a reader: that of the board.
func (a Axis) In(s unit.System) Axis {
	us := a.Unit
	if unit.Preferred(a.Kind, unit.EU) != unit.Preferred(a.Kind, unit.US) {
		us = unit.Preferred(a.Kind, unit.US)
	}
	a.Label, a.Unit = unit.Spell(a.Label, s), unit.Shown(a.Kind, a.Unit, us, s)
	if a.Unit == "" {
		a.Unit = unit.Preferred(a.Kind, s)
	}
	return a
}

// Series is one curve of a plot, or a cloud of points.
type Series struct {
	Name   string  `json:"name"`
	X      Numbers `json:"x"`
	Y      Numbers `json:"y"`
	Lo     Numbers `json:"lo,omitempty"` // band
	Hi     Numbers `json:"hi,omitempty"`
	Points bool    `json:"points,omitempty"`
	Dashed bool    `json:"dashed,omitempty"`
}

// MarshalJSON keeps every digit of points, for they were measured.
func (s Series) MarshalJSON() ([]byte, error) {
	type drawn Series
	if !s.Points {
		return json.Marshal(drawn(s))
	}
	return json.Marshal(struct {
		drawn
		X []float64 `json:"x"`
		Y []float64 `json:"y"`
	}{drawn(s), s.X, s.Y})
}

// Mark is a labelled place on the x axis.
type Mark struct {
	At    float64 `json:"at"`
	Label string  `json:"label"`
}

// Absent is a field along the wall that a result does not have.
type Absent struct {
	Plot string `json:"plot"`          // key it would have
	Full bool   `json:"full"`          // the full run brings it
	Why  string `json:"why,omitempty"` // otherwise the reason
}

// Map is a field over two axes, in SI, drawn as colour.
type Map struct {
	Key   string    `json:"key"`
	Stage string    `json:"stage"`
	Title string    `json:"title"`
	X     Axis      `json:"x"`
	Y     Axis      `json:"y"`
	V     Axis      `json:"v"`
	AtX   Numbers   `json:"at_x"`
	AtY   Numbers   `json:"at_y"`
	Value []Numbers `json:"value"` // one row a y
}

// In returns the map with its words in the units of a system, and the axes with the
// unit in which they are drawn.
func (m Map) In(s unit.System) Map {
	m.Title = unit.Spell(m.Title, s)
	m.X, m.Y, m.V = m.X.In(s), m.Y.In(s), m.V.In(s)
	return m
}

// plot adds a chart. Curves with a number that is not finite are cut there.
func (c *pass) plot(p Plot) {
	if !c.work.drawn {
		return
	}
	if p.Stage == "" {
		p.Stage = c.name
	}
	if p.Marks == nil {
		p.Marks = []Mark{}
	}
	kept := p.Series[:0:0]
	for _, s := range p.Series {
		n := min(len(s.X), len(s.Y))
		for i := range n {
			if isBad(s.X[i]) || isBad(s.Y[i]) {
				n = i
				break
			}
		}
		if n > 0 {
			s.X, s.Y = s.X[:n], s.Y[:n]
			if len(s.Lo) >= n && len(s.Hi) >= n {
				s.Lo, s.Hi = s.Lo[:n], s.Hi[:n]
			} else {
				s.Lo, s.Hi = nil, nil
			}
			kept = append(kept, s)
		}
	}
	p.Series = kept
	if len(kept) > 0 {
		c.plots = append(c.plots, p)
	}
}

// field adds a map; one with a number that is not finite is left out.
func (c *pass) field(m Map) {
	m.Stage = c.name
	for _, row := range m.Value {
		for _, v := range row {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				c.problem(m.Key, "the map holds a number that is not finite")
				return
			}
		}
	}
	c.maps = append(c.maps, m)
}

// span returns n numbers from a to b.
func span(a, b float64, n int) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = a + (b-a)*float64(i)/float64(n-1)
	}
	return out
}
