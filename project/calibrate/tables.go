package calibrate

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"costrel/quality/lab"
	"costrel/quality/stat"
	"costrel/unit"
)

// sectionSum is how far the sections of a bottle may miss its total [kg]: three
// readings of a scale with 0.1 g. Chosen for this project, as in quality/lab.
const sectionSum = 0.3e-3

// SectionsOf returns the section weights of a laboratory table. A row whose
// sections contradict its total is left out and told; one that misses a cell is
// told, its other cells count.
func SectionsOf(t *lab.Table, into *WallData) error {
	out, err := sectionRows(t, into)
	if err != nil {
		return err
	}
	for _, s := range []struct {
		key string
		to  *Reading
	}{{"section.shoulder.mass", &into.Shoulder}, {"section.panel.mass", &into.Panel}, {"section.base.mass", &into.Base}} {
		series, err := t.Find(s.key, "", "")
		if err != nil {
			return fmt.Errorf("%s: %w", t.File, err)
		}
		kept := series.Readings[:0:0]
		for _, r := range series.Readings {
			if !out[r.Row] {
				kept = append(kept, r)
			}
		}
		series.Readings = kept
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

// sectionRows returns the rows that contradict themselves, and notes them and those
// that miss a cell.
func sectionRows(t *lab.Table, into *WallData) (map[int]bool, error) {
	names := []string{"shoulder", "panel", "base"}
	cells, total := map[string]map[int]float64{}, map[int]float64{}
	columns := map[string]bool{}
	for _, r := range t.Readings {
		name := strings.TrimSuffix(strings.TrimPrefix(r.Key, "section."), ".mass")
		if r.Key == "bottle.mass" {
			total[r.Row] = r.Value
		} else if name != r.Key {
			if cells[name] == nil {
				cells[name] = map[int]float64{}
			}
			cells[name][r.Row], columns[name] = r.Value, true
		}
	}
	g := func(v float64) string { return unit.Format(unit.Mass, v, "g", 4) }
	out, good := map[int]bool{}, 0
	var told []string
	for i, row := range t.Rows {
		sum, have := 0.0, []string{}
		var missing []string
		for _, name := range names {
			if v, ok := cells[name][i]; ok {
				sum += v
				have = append(have, name+" "+g(v))
			} else if columns[name] {
				missing = append(missing, name)
			}
		}
		switch {
		case len(have) == 0:
		case len(missing) > 0:
			told = append(told, fmt.Sprintf("%s:%d: no weight of the %s; the other cells of the row count", t.File, row.Line, strings.Join(missing, " and the ")))
			good++
		case len(have) == len(names) && total[i] > 0 && math.Abs(sum-total[i]) > sectionSum:
			told = append(told, fmt.Sprintf("%s:%d: %s are %s in sum, the total of the row is %s: the row is left out; correct the cell", t.File, row.Line, strings.Join(have, ", "), g(sum), g(total[i])))
			out[i] = true
		default:
			good++
		}
	}
	if good == 0 && len(out) > 0 {
		return nil, errors.New("no row of section weights agrees with its total: " + strings.Join(told, "; "))
	}
	into.Notes = append(into.Notes, told...)
	return out, nil
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
			faults = append(faults, fmt.Errorf("%s:%d: the row has no height: want it in mm, in a column such as z_mm_from_base", t.File, r.Line))
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
			return fmt.Errorf("%s: height ‹%.4g mm›: %w", t.File, 1e3*z, err)
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
	return fmt.Errorf("%s:%d: the height ‹%.4g mm› stands here with a wall of ‹%.3g mm› and in line %d with ‹%.3g mm›, more than %g times as much; check the heights", file, line[thin], 1e3*z, 1e3*a, line[thick], 1e3*b, mostApart)
}
