package calibrate

import (
	"errors"
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
	byHeight := map[float64][]lab.Reading{}
	var heights []float64
	var faults []error
	bare := map[int]bool{} // rows told to have no height
	for _, r := range series.Readings {
		z, ok := t.Rows[r.Row].Settings["z"]
		switch {
		case r.Censor != "":
			faults = append(faults, fmt.Errorf("%s:%d:%d: a censored wall reading %q; give the wall itself", t.File, r.Line, r.Col, r.Text))
		case !ok && bare[r.Row]:
		case !ok:
			bare[r.Row] = true
			faults = append(faults, fmt.Errorf("%s:%d: the row has no height", t.File, r.Line))
		case !(r.Value > 0):
			faults = append(faults, fmt.Errorf("%s:%d:%d: the wall is %q; a wall is above 0: leave the cell empty where none was read", t.File, r.Line, r.Col, r.Text))
		default:
			if _, ok := byHeight[z]; !ok {
				heights = append(heights, z)
			}
			byHeight[z] = append(byHeight[z], r)
		}
	}
	for _, z := range heights {
		if err := apart(t.File, z, byHeight[z]); err != nil {
			faults = append(faults, err)
		}
	}
	if faults != nil {
		return errors.Join(faults...)
	}
	for _, z := range heights {
		var walls []float64
		for _, r := range byHeight[z] {
			walls = append(walls, r.Value)
		}
		sum, err := stat.Summarize(walls)
		if err != nil {
			return fmt.Errorf("%s: height %.4g mm: %w", t.File, 1e3*z, err)
		}
		sd := 0.0
		if sum.N > 1 {
			sd = sum.S / math.Sqrt(float64(sum.N))
		}
		into.Levels = append(into.Levels, Level{Z: z, Wall: sum.Mean, SD: sd})
	}
	return nil
}

// mostApart is how many times the wall of one row of readings may be that of
// another at the same height: chosen for this project, beyond any eccentric
// bottle.
const mostApart = 2.0

// apart says that rows at one height tell different walls.
func apart(file string, z float64, readings []lab.Reading) error {
	byRow := map[int][]float64{}
	line := map[int]int{}
	for _, r := range readings {
		byRow[r.Row], line[r.Row] = append(byRow[r.Row], r.Value), r.Line
	}
	thin, thick := readings[0].Row, readings[0].Row
	for _, r := range readings {
		if mean(byRow[r.Row]) < mean(byRow[thin]) {
			thin = r.Row
		}
		if mean(byRow[r.Row]) > mean(byRow[thick]) {
			thick = r.Row
		}
	}
	a, b := mean(byRow[thin]), mean(byRow[thick])
	if b <= mostApart*a {
		return nil
	}
	return fmt.Errorf("%s:%d: the height %.4g mm stands here with a wall of %.3g mm and in line %d with %.3g mm, more than %g times as much; check the heights", file, line[thin], 1e3*z, 1e3*a, line[thick], 1e3*b, mostApart)
}
