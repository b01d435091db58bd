package calibrate

import (
	"fmt"
	"math"

	"costrel/quality/lab"
	"costrel/quality/stat"
)

// SectionsOf returns the section weights of a laboratory table.
func SectionsOf(t *lab.Table, into *WallData) error {
	for _, s := range []struct {
		key string
		to  *Reading
	}{{"section.shoulder.mass", &into.Shoulder}, {"section.panel.mass", &into.Panel}, {"section.base.mass", &into.Base}} {
		series, err := t.Find(s.key, "", "")
		if err != nil {
			return fmt.Errorf("%s: %w", t.File, err)
		}
		x, censored := series.Values()
		if censored > 0 {
			return fmt.Errorf("%s: %s: %d censored readings; give the weights themselves", t.File, series.Name(), censored)
		}
		sum, err := stat.Summarize(x)
		if err != nil {
			return fmt.Errorf("%s: %s: %w", t.File, series.Name(), err)
		}
		*s.to = Reading{Mean: sum.Mean, SD: sum.S, N: sum.N}
	}
	return nil
}

// LevelsOf returns the wall readings of a laboratory table: the mean round the
// axis at every height, its scatter from the readings round it.
func LevelsOf(t *lab.Table, into *WallData) error {
	series, err := t.Find("wall", "", "")
	if err != nil {
		return fmt.Errorf("%s: %w", t.File, err)
	}
	byRow := map[int][]float64{}
	var rows []int
	for _, r := range series.Readings {
		if r.Censor != "" {
			return fmt.Errorf("%s:%d: a censored wall reading %q; give the wall itself", t.File, r.Line, r.Text)
		}
		if _, ok := byRow[r.Row]; !ok {
			rows = append(rows, r.Row)
		}
		byRow[r.Row] = append(byRow[r.Row], r.Value)
	}
	for _, i := range rows {
		z, ok := t.Rows[i].Settings["z"]
		if !ok {
			return fmt.Errorf("%s: row %d has no height", t.File, i+1)
		}
		sum, err := stat.Summarize(byRow[i])
		if err != nil {
			return fmt.Errorf("%s: row %d: %w", t.File, i+1, err)
		}
		sd := 0.0
		if sum.N > 1 {
			sd = sum.S / math.Sqrt(float64(sum.N))
		}
		into.Levels = append(into.Levels, Level{Z: z, Wall: sum.Mean, SD: sd})
	}
	return nil
}
