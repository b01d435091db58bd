// Package chart draws line charts as SVG: curves with bands and points, axes
// with unit, for process sheets and reports.
package chart

import (
	"bytes"
	"errors"
	"fmt"
	"image/color"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgsvg"
)

// Series is one curve, or points when Points is true. X and Y are in the units
// of the axes.
type Series struct {
	Name   string
	X, Y   []float64
	Lo, Hi []float64 // band round the curve; empty for none
	Points bool
	Dashed bool
}

// Chart is one pair of axes with its series. Labels carry the unit.
type Chart struct {
	Title, X, Y string
	Series      []Series
	Marks       []Mark // lines at places on the x axis
	Equal       bool   // one unit is as long along x as along y: for shapes
}

// Mark is a labelled line across the chart at a place on the x axis.
type Mark struct {
	At    float64
	Label string
}

// inks are dark enough on white and differ for the colour-blind; dashes tell
// them apart in grey.
var inks = []color.RGBA{
	{R: 20, G: 33, B: 61, A: 255}, {R: 180, G: 83, B: 9, A: 255}, {R: 15, G: 118, B: 110, A: 255}, {R: 124, G: 58, B: 137, A: 255}, {R: 90, G: 90, B: 90, A: 255},
}

// SVG returns charts below each other as one SVG picture of the given size in
// mm. Series with a value that is not finite are refused.
func SVG(width, height float64, charts ...Chart) ([]byte, error) {
	if len(charts) == 0 {
		return nil, errors.New("chart: nothing to draw")
	}
	canvas := vgsvg.New(vg.Length(width)*vg.Millimeter, vg.Length(height)*vg.Millimeter)
	dc := draw.New(canvas)
	each := dc.Size().Y / vg.Length(len(charts))
	for i, c := range charts {
		p, err := c.plot()
		if err != nil {
			return nil, err
		}
		top := dc.Max.Y - vg.Length(i)*each
		box := vg.Rectangle{Min: vg.Point{X: dc.Min.X + edge, Y: top - each + edge}, Max: vg.Point{X: dc.Max.X - edge, Y: top - edge}}
		// The names stand beside the curves, which they would hide.
		names := p.Legend
		p.Legend = plot.NewLegend()
		side := c.side(names)
		curves := box
		curves.Max.X -= side
		if c.Equal {
			equalize(p, draw.Canvas{Canvas: dc.Canvas, Rectangle: curves})
		}
		p.Draw(draw.Canvas{Canvas: dc.Canvas, Rectangle: curves})
		around(dc, box)
		box.Min.X = box.Max.X - side + edge
		box.Max.Y -= p.Title.TextStyle.Height(c.Title) + p.Title.Padding // level with the top of the axes
		names.Padding = vg.Points(3)
		names.Draw(draw.Canvas{Canvas: dc.Canvas, Rectangle: box})
	}
	var b bytes.Buffer
	if _, err := canvas.WriteTo(&b); err != nil {
		return nil, fmt.Errorf("chart: %w", err)
	}
	return b.Bytes(), nil
}

// around draws the frame of a chart: curves, axes and the names beside them.
func around(dc draw.Canvas, box vg.Rectangle) {
	const room = edge / 2
	lo, hi := vg.Point{X: box.Min.X - room, Y: box.Min.Y - room}, vg.Point{X: box.Max.X + room, Y: box.Max.Y + room}
	dc.StrokeLines(draw.LineStyle{Color: color.Gray{Y: 200}, Width: vg.Points(0.6)},
		[]vg.Point{lo, {X: hi.X, Y: lo.Y}, hi, {X: lo.X, Y: hi.Y}, lo})
}

// equalize widens the range of one axis about its middle until a unit is as long
// along both.
func equalize(p *plot.Plot, c draw.Canvas) {
	for range 3 { // the room for the numbers at the axes changes with them
		size := p.DataCanvas(c).Size()
		x, y := p.X.Max-p.X.Min, p.Y.Max-p.Y.Min
		each := math.Max(x/float64(size.X), y/float64(size.Y))
		if !(each > 0) {
			return
		}
		dx, dy := (each*float64(size.X)-x)/2, (each*float64(size.Y)-y)/2
		p.X.Min, p.X.Max, p.Y.Min, p.Y.Max = p.X.Min-dx, p.X.Max+dx, p.Y.Min-dy, p.Y.Max+dy
	}
}

// edge is the free space round a chart.
const edge = 3 * vg.Millimeter

// wider is how much wider a name may come out in the font of a reader that
// lacks this one.
const wider = 1.35

// side is the width that the names of the curves take beside them.
func (c Chart) side(names plot.Legend) vg.Length {
	most := vg.Length(0)
	for _, s := range c.Series {
		most = max(most, names.TextStyle.Width(s.Name))
	}
	return wider*most + names.ThumbnailWidth + 2*edge
}

func (c Chart) plot() (*plot.Plot, error) {
	p := plot.New()
	p.Title.Text, p.X.Label.Text, p.Y.Label.Text = c.Title, c.X, c.Y
	p.Title.TextStyle.Font.Size = font.Length(11)
	p.Title.Padding = vg.Points(4)
	p.X.Label.TextStyle.Font.Size, p.Y.Label.TextStyle.Font.Size = font.Length(9), font.Length(9)
	p.Legend.Top, p.Legend.Left = true, true
	p.Legend.TextStyle.Font.Size = font.Length(8)
	p.X.Tick.Marker, p.Y.Tick.Marker = roundTicks{}, roundTicks{}
	grid := plotter.NewGrid()
	grid.Vertical.Color, grid.Horizontal.Color = color.Gray{Y: 225}, color.Gray{Y: 225}
	p.Add(grid)
	for i, s := range c.Series {
		if err := s.check(c.Title); err != nil {
			return nil, err
		}
		ink := inks[i%len(inks)]
		if len(s.Lo) > 0 {
			band := make(plotter.XYs, 0, 2*len(s.X))
			for j := range s.X {
				band = append(band, plotter.XY{X: s.X[j], Y: s.Hi[j]})
			}
			for j := len(s.X) - 1; j >= 0; j-- {
				band = append(band, plotter.XY{X: s.X[j], Y: s.Lo[j]})
			}
			area, err := plotter.NewPolygon(band)
			if err != nil {
				return nil, fmt.Errorf("chart: %s: %w", s.Name, err)
			}
			area.Color = color.NRGBA{R: ink.R, G: ink.G, B: ink.B, A: 40}
			area.LineStyle.Width = 0
			p.Add(area)
		}
		xy := make(plotter.XYs, len(s.X))
		for j := range s.X {
			xy[j] = plotter.XY{X: s.X[j], Y: s.Y[j]}
		}
		if s.Points {
			dots, err := plotter.NewScatter(xy)
			if err != nil {
				return nil, fmt.Errorf("chart: %s: %w", s.Name, err)
			}
			dots.GlyphStyle = draw.GlyphStyle{Color: ink, Radius: vg.Points(2), Shape: draw.CircleGlyph{}}
			p.Add(dots)
			p.Legend.Add(s.Name, dots)
			continue
		}
		line, err := plotter.NewLine(xy)
		if err != nil {
			return nil, fmt.Errorf("chart: %s: %w", s.Name, err)
		}
		line.Color, line.Width = ink, vg.Points(1.2)
		if s.Dashed {
			line.Dashes = []vg.Length{vg.Points(4), vg.Points(2)}
		}
		p.Add(line)
		if s.Name != "" {
			p.Legend.Add(s.Name, line)
		}
	}
	top, rows := p.Y.Max, c.rows(p.X.Max-p.X.Min)
	for i, m := range c.Marks {
		line, err := plotter.NewLine(plotter.XYs{{X: m.At, Y: p.Y.Min}, {X: m.At, Y: top}})
		if err != nil {
			return nil, fmt.Errorf("chart: mark %s: %w", m.Label, err)
		}
		line.Color, line.Width, line.Dashes = color.Gray{Y: 120}, vg.Points(0.6), []vg.Length{vg.Points(2), vg.Points(2)}
		p.Add(line)
		labels, err := plotter.NewLabels(plotter.XYLabels{XYs: plotter.XYs{{X: m.At, Y: top - 0.06*float64(rows[i])*(top-p.Y.Min)}}, Labels: []string{" " + m.Label}})
		if err != nil {
			return nil, fmt.Errorf("chart: mark %s: %w", m.Label, err)
		}
		labels.TextStyle[0].Font.Size = font.Length(7)
		p.Add(labels)
	}
	return p, nil
}

// rows returns the row of the label of each mark, counted down from the top:
// labels of marks near each other stand below each other.
func (c Chart) rows(span float64) []int {
	const near = 0.3 // of the span, about the length of a label
	out := make([]int, len(c.Marks))
	for i, m := range c.Marks {
		taken := map[int]bool{}
		for j, q := range c.Marks[:i] {
			if math.Abs(m.At-q.At) < near*span {
				taken[out[j]] = true
			}
		}
		for taken[out[i]] {
			out[i]++
		}
	}
	return out
}

func (s Series) check(title string) error {
	if len(s.X) != len(s.Y) || len(s.X) == 0 {
		return fmt.Errorf("chart: %s: %s: %d x for %d y", title, s.Name, len(s.X), len(s.Y))
	}
	if len(s.Lo) != len(s.Hi) || len(s.Lo) > 0 && len(s.Lo) != len(s.X) {
		return fmt.Errorf("chart: %s: %s: the band does not fit the curve", title, s.Name)
	}
	for _, list := range [][]float64{s.X, s.Y, s.Lo, s.Hi} {
		for _, v := range list {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				return fmt.Errorf("chart: %s: %s: a value is not finite", title, s.Name)
			}
		}
	}
	return nil
}
