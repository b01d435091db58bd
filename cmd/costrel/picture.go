package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"costrel/export/chart"
	"costrel/project/run"
	"costrel/unit"
)

// picture writes plots below each other as one SVG file, whole or not at all.
func picture(file string, plots []run.Plot, sys unit.System) error {
	switch end := strings.ToLower(filepath.Ext(file)); end {
	case ".png", ".jpg", ".jpeg", ".gif", ".pdf", ".webp", ".eps", ".tif", ".tiff", ".bmp":
		return fmt.Errorf("--svg %s: the picture is SVG and no %s: name it %s", file, end, strings.TrimSuffix(file, filepath.Ext(file))+".svg")
	}
	if len(plots) == 0 {
		return errors.New("this stage has no plot: leave --stage out, or name one that has, such as inject, reheat, blow, wall or shelf")
	}
	var charts []chart.Chart
	for _, p := range plots {
		p = p.In(sys)
		x, y := scale(p.X), scale(p.Y)
		shape := p.Key == "strength.form" || strings.HasPrefix(p.Key, "strength.buckle.")
		c := chart.Chart{Title: p.Title, X: x.label, Y: y.label, Equal: shape}
		for _, s := range p.Series {
			c.Series = append(c.Series, chart.Series{Name: s.Name, X: x.all(s.X), Y: y.all(s.Y), Lo: y.all(s.Lo), Hi: y.all(s.Hi), Points: s.Points, Dashed: s.Dashed})
		}
		for _, m := range p.Marks {
			c.Marks = append(c.Marks, chart.Mark{At: x.one(m.At), Label: m.Label})
		}
		charts = append(charts, c)
	}
	b, err := chart.SVG(170, 85*float64(len(charts)), charts...)
	if err != nil {
		return err
	}
	return replace(file, b)
}

// replace writes a file whole or not at all. One that is there keeps its
// permissions.
func replace(file string, b []byte) error {
	mode := os.FileMode(0o644)
	if info, err := os.Stat(file); err == nil {
		mode = info.Mode().Perm()
	}
	tmp, err := os.CreateTemp(filepath.Dir(file), ".costrel-*")
	if err != nil {
		return err
	}
	_, err = tmp.Write(b)
	if err = errors.Join(err, tmp.Chmod(mode), tmp.Close()); err == nil {
		err = os.Rename(tmp.Name(), file)
	}
	if err != nil {
		return errors.Join(fmt.Errorf("%s is not written: %w", file, err), os.Remove(tmp.Name()))
	}
	return nil
}

// display is an axis in the reader's unit.
type display struct {
	label string
	unit  unit.Unit
}

func scale(a run.Axis) display {
	u, ok := unit.Find(a.Kind, a.Unit)
	if !ok {
		u = unit.Unit{Scale: 1}
	}
	d := display{label: a.Label, unit: u}
	if u.Symbol != "" {
		d.label += ", " + u.Symbol
	}
	return d
}

func (d display) one(si float64) float64 { return (si - d.unit.Offset) / d.unit.Scale }

func (d display) all(si []float64) []float64 {
	if si == nil {
		return nil
	}
	out := make([]float64, len(si))
	for i, v := range si {
		out[i] = d.one(v)
	}
	return out
}
