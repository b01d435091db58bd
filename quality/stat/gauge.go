package stat

import (
	"fmt"
	"math"

	"costrel/num/dist"
)

// GaugeStudy is a crossed gauge study by analysis of variance: every
// appraiser measures every part the same number of times.
type GaugeStudy struct {
	Appraisers, Parts, Trials int

	AppraiserSS, PartSS, InteractionSS, EquipmentSS, TotalSS float64
	InteractionF, InteractionP                               float64
	Pooled                                                   bool // the interaction was pooled with the equipment

	EV  float64 // repeatability, standard deviation
	AV  float64 // reproducibility
	IV  float64 // interaction; 0 where pooled
	GRR float64 // sqrt(EV² + AV² + IV²)
	PV  float64 // part to part
	TV  float64 // sqrt(GRR² + PV²)
	// NDC is the number of distinct categories 1.41 PV/GRR, not rounded down.
	NDC      float64
	Negative []string // components whose estimate was negative and is set to 0
}

// Gauge analyses x[appraiser][part][trial] with at least two of each. The
// interaction is pooled with the equipment where its probability is above
// poolAbove (usual: 0.25). Source: AIAG2010.
func Gauge(x [][][]float64, poolAbove float64) (GaugeStudy, error) {
	a := len(x)
	if a < 2 || len(x[0]) < 2 || len(x[0][0]) < 2 {
		return GaugeStudy{}, fmt.Errorf("stat: gauge study: want at least 2 appraisers, 2 parts and 2 trials")
	}
	if !(poolAbove >= 0 && poolAbove <= 1) {
		return GaugeStudy{}, fmt.Errorf("stat: gauge study: pooling level %g outside 0..1", poolAbove)
	}
	p, t := len(x[0]), len(x[0][0])
	out := GaugeStudy{Appraisers: a, Parts: p, Trials: t}
	var all []float64
	byA, byP := make([]float64, a), make([]float64, p)
	cell := make([][]float64, a)
	for i := range x {
		if len(x[i]) != p {
			return GaugeStudy{}, fmt.Errorf("stat: gauge study: appraiser %d has %d parts, want %d", i+1, len(x[i]), p)
		}
		cell[i] = make([]float64, p)
		for j := range x[i] {
			if len(x[i][j]) != t {
				return GaugeStudy{}, fmt.Errorf("stat: gauge study: appraiser %d, part %d has %d trials, want %d", i+1, j+1, len(x[i][j]), t)
			}
			if err := finite("gauge study", x[i][j], t); err != nil {
				return GaugeStudy{}, err
			}
			for _, v := range x[i][j] {
				cell[i][j] += v / float64(t)
				all = append(all, v)
			}
			byA[i] += cell[i][j] / float64(p)
			byP[j] += cell[i][j] / float64(a)
		}
	}
	total, err := Summarize(all)
	if err != nil {
		return GaugeStudy{}, err
	}
	fa, fp, ft := float64(a), float64(p), float64(t)
	for i := range x {
		out.AppraiserSS += fp * ft * square(byA[i]-total.Mean)
		for j := range x[i] {
			out.InteractionSS += ft * square(cell[i][j]-byA[i]-byP[j]+total.Mean)
			for _, v := range x[i][j] {
				out.EquipmentSS += square(v - cell[i][j])
				out.TotalSS += square(v - total.Mean)
			}
		}
	}
	for j := range byP {
		out.PartSS += fa * ft * square(byP[j]-total.Mean)
	}
	dfI, dfE := (fa-1)*(fp-1), fa*fp*(ft-1)
	msA, msP, msI, msE := out.AppraiserSS/(fa-1), out.PartSS/(fp-1), out.InteractionSS/dfI, out.EquipmentSS/dfE
	if !(msE > 0) {
		return GaugeStudy{}, fmt.Errorf("stat: gauge study: the trials of every part are equal: the gauge resolves too little or the readings are copied")
	}
	out.InteractionF = msI / msE
	if out.InteractionP, err = dist.FSurvival(out.InteractionF, dfI, dfE); err != nil {
		return GaugeStudy{}, err
	}
	part := func(name string, v float64) float64 {
		if v < 0 {
			out.Negative = append(out.Negative, name)
			return 0
		}
		return v
	}
	var ev, av, iv, pv float64
	if out.Pooled = out.InteractionP > poolAbove; out.Pooled {
		ev = (out.EquipmentSS + out.InteractionSS) / (dfE + dfI)
		av = part("reproducibility", (msA-ev)/(fp*ft))
		pv = part("part", (msP-ev)/(fa*ft))
	} else {
		ev = msE
		iv = part("interaction", (msI-msE)/ft)
		av = part("reproducibility", (msA-msI)/(fp*ft))
		pv = part("part", (msP-msI)/(fa*ft))
	}
	out.EV, out.AV, out.IV, out.PV = math.Sqrt(ev), math.Sqrt(av), math.Sqrt(iv), math.Sqrt(pv)
	out.GRR = math.Sqrt(ev + av + iv)
	out.TV = math.Sqrt(ev + av + iv + pv)
	out.NDC = 1.41 * out.PV / out.GRR
	return out, nil
}

// Share returns a standard deviation of the study in per cent of the total.
func (g GaugeStudy) Share(sd float64) float64 { return 100 * sd / g.TV }

// Categories returns the number of distinct categories that the gauge tells
// apart, rounded down; at least 5 is usually wanted.
func (g GaugeStudy) Categories() int { return int(g.NDC) }

func square(x float64) float64 { return x * x }
