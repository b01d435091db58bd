package calibrate

import (
	"fmt"
	"math"
	"sort"

	"costrel/num/curve"
	"costrel/unit"
)

// contraTold is the share by which readings may hold more or less plastic than was
// weighed before it is told. Chosen for this project.
const contraTold = 0.05

// contradictions holds the readings against the section weights: the wall straight
// between its readings, over the real surface, as a weight. Where both are
// measured and disagree no wall meets both; one that holds the weight is off the
// readings in the mean by what they disagree, whatever the model. The readings of
// that section get that as scatter, so that the fit believes the weight for how
// much there is and the readings for where. r are the residuals, taken anew.
func (m *wallModel) contradictions(notes []string, r []float64) ([]string, error) {
	if m.sections == 0 || len(m.data.Levels) < 2 {
		return notes, nil
	}
	b, d := m.shape.Bottle, m.base
	levels := append([]Level(nil), m.data.Levels...)
	sort.Slice(levels, func(i, j int) bool { return levels[i].Z < levels[j].Z })
	read := curve.Wall{}
	for _, l := range levels {
		read.S, read.T = append(read.S, b.CutS(l.Z)), append(read.T, l.Wall)
	}
	averaged := curve.Wall{S: m.wall.S, T: make([]float64, len(m.wall.S))}
	for i, s := range m.wall.S {
		t, _ := read.At(s)
		averaged.T[i] = t * m.wall.Real[i]
	}
	held, err := b.Sections(averaged, d.Resin.DensityWall, d.Finish.Mass, m.planes)
	if err != nil {
		return nil, fmt.Errorf("calibrate: plastic under the wall readings: %w", err)
	}
	for i, label := range m.labels[:m.sections] {
		for _, s := range held {
			if label != s.Name+" section" && label != s.Name+" section with finish" {
				continue
			}
			within := 0
			for _, l := range m.data.Levels {
				if l.Z >= s.Z0 && l.Z <= s.Z1 {
					within++
				}
			}
			finish := s.Mass - s.Wall
			weighed := m.measured[i] - finish
			off := s.Wall/weighed - 1
			if within == 0 || math.Abs(off) < contraTold {
				continue
			}
			notes = append(notes, fmt.Sprintf("the readings contradict the weight of the %s: straight between them the wall holds %s, weighed are %s, finish taken off. No wall meets both; one that holds the weight is off the readings by %+.0f %% in the mean there, whatever the model. They count with that scatter",
				s.Name, unit.Format(unit.Mass, s.Wall, "g", 3), unit.Format(unit.Mass, weighed, "g", 3), 100*(1/(1+off)-1)))
			for k, l := range m.data.Levels {
				if l.Z >= s.Z0 && l.Z <= s.Z1 {
					j := m.sections + k
					m.sd[j] = math.Hypot(m.sd[j], off*l.Wall)
				}
			}
		}
	}
	for i := range r {
		r[i] = (m.last[i] - m.measured[i]) / m.sd[i]
	}
	return notes, nil
}

// panelHeights is the least number of heights read in the panel from which what
// the fit has left there makes a band: one or two say little of how far a computed
// wall is off between them. Chosen for this project.
const panelHeights = 3

// panelLeft is how far the panel as last computed is off its readings, root mean
// square of the relative differences and their scatter; 0 with fewer than
// panelHeights heights read between its ends.
func (m *wallModel) panelLeft() float64 {
	sum := 0.0
	heights := map[float64]bool{}
	n := 0
	for k, l := range m.data.Levels {
		if i := m.sections + k; l.Z >= m.shape.Panel[0] && l.Z <= m.shape.Panel[1] {
			x, sd := m.last[i]/m.measured[i]-1, l.SD/l.Wall
			sum, n = sum+x*x+sd*sd, n+1
			heights[math.Round(l.Z*1e3)] = true
		}
	}
	if len(heights) < panelHeights {
		return 0
	}
	return math.Sqrt(sum / float64(n))
}

// weightLeft is the same of the section weights [kg], 0 where not all three were
// weighed.
func (m *wallModel) weightLeft() float64 {
	if m.sections < 3 {
		return 0
	}
	sum := 0.0
	for i := range m.sections {
		sum += (m.last[i]-m.measured[i])*(m.last[i]-m.measured[i]) + m.sd[i]*m.sd[i]
	}
	return math.Sqrt(sum / float64(m.sections))
}
