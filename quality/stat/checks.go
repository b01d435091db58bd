package stat

import (
	"fmt"
	"math"

	"costrel/cite"
	"costrel/num/dist"
)

// Checks returns the published checks of the laboratory statistics.
func Checks() []cite.Check {
	var out []cite.Check
	for _, part := range [][]cite.Check{toleranceChecks(), countChecks(), capabilityChecks(), outlierChecks(), varianceChecks(), weibullChecks(), agreementChecks()} {
		out = append(out, part...)
	}
	return out
}

func toleranceChecks() []cite.Check {
	var out []cite.Check
	for _, c := range []struct {
		n       int
		p, g, k float64
	}{
		{5, .95, .95, 4.203},
		{6, .95, .95, 3.708},
		{8, .95, .95, 3.187},
		{10, .95, .95, 2.911},
		{12, .95, .95, 2.736},
		{15, .95, .95, 2.566},
		{20, .95, .95, 2.396},
		{24, .95, .95, 2.309},
		{30, .95, .95, 2.220},
		{35, .95, .95, 2.167},
		{60, .95, .95, 2.022},
		{30, .99, .95, 3.064},
		{32, .99, .95, 3.034},
		{50, .99, .95, 2.862},
		{10, .99, .95, 3.981},
		{12, .90, .95, 2.210},
		{24, .90, .95, 1.853},
	} {
		out = append(out, cite.Check{
			ID: fmt.Sprintf("stat.k1.%d.%.0f.%.0f", c.n, 100*c.p, 100*c.g), Case: fmt.Sprintf("One-sided factor, n %d, %.0f %% of the population, %.0f %% confidence", c.n, 100*c.p, 100*c.g),
			Source: "Owen1968", Unit: "1", Ours: func() float64 { return cite.Or(dist.OneSidedFactor(c.n, c.p, c.g)) },
			Published: c.k, Allowed: 0.0005001, Mark: cite.Independent, Note: "by another program's non-central t, three decimals",
		})
	}
	for _, c := range []struct {
		n           int
		exact, howe float64
	}{{10, 3.3934, 3.3819}, {20, 2.7603, 2.7523}, {30, 2.5549, 2.5496}, {50, 2.3816, 2.3788}, {100, 2.2339, 2.2328}} {
		out = append(out, cite.Check{
			ID: fmt.Sprintf("stat.k2.%d.95.95", c.n), Case: fmt.Sprintf("Two-sided factor, exact, n %d, 95 %% of the population, 95 %% confidence", c.n),
			Source: "OdehOwen1980", Unit: "1", Ours: func() float64 { return cite.Or(dist.TwoSidedFactor(c.n, .95, .95)) },
			Published: c.exact, Allowed: 0.00005001, Mark: cite.Independent, Note: "by another program, four decimals",
		}, cite.Check{
			ID: fmt.Sprintf("stat.howe.%d.95.95", c.n), Case: fmt.Sprintf("Two-sided factor, Howe, n %d, 95 %% of the population, 95 %% confidence", c.n),
			Source: "Howe1969", Unit: "1", Ours: func() float64 { return cite.Or(dist.HoweFactor(c.n, .95, .95)) },
			Published: c.howe, Allowed: 0.00005001, Mark: cite.Independent, Note: "by another program, four decimals",
		})
	}
	return append(out,
		cite.Check{
			ID: "stat.k2.nist.howe", Case: "Two-sided factor, Howe, n 43, 90 % of the wafers, 99 % confidence", Source: "NIST2012", Unit: "1",
			Ours: func() float64 { return cite.Or(dist.HoweFactor(43, .90, .99)) }, Published: 2.2173, Allowed: 0.0001, Mark: cite.Independent, Note: "section 7.2.6.3",
		},
		cite.Check{
			ID: "stat.k2.nist.upper", Case: "Upper limit of the wafer resistivities, mean 97.07, s 0.0268", Source: "NIST2012", Unit: "ohm·cm",
			Ours: func() float64 { return 97.07 + 0.0268*cite.Or(dist.HoweFactor(43, .90, .99)) }, Published: 97.129, Allowed: 0.0006, Mark: cite.Independent, Note: "section 7.2.6.3",
		},
		cite.Check{
			ID: "stat.k2.nist.exact", Case: "The same, exact", Source: "OdehOwen1980", Unit: "1",
			Ours: func() float64 { return cite.Or(dist.TwoSidedFactor(43, .90, .99)) }, Published: 2.2228, Allowed: 0.00005001, Mark: cite.Independent, Note: "by another program",
		},
		cite.Check{
			ID: "stat.k1.nist.exact", Case: "One-sided factor, n 43, 90 % of the wafers, 99 % confidence", Source: "NIST2012", Unit: "1",
			Ours: func() float64 { return cite.Or(dist.OneSidedFactor(43, .90, .99)) }, Published: 1.8740, Allowed: 0.00005001, Mark: cite.Independent, Note: "exact by another program; the handbook prints Natrella's approximation 1.8752",
		},
	)
}

func countChecks() []cite.Check {
	var out []cite.Check
	for _, c := range []struct {
		r, conf float64
		n       int
	}{{.90, .90, 22}, {.90, .95, 29}, {.95, .90, 45}, {.95, .95, 59}, {.99, .90, 230}, {.99, .95, 299}, {.997, .95, 998}, {.999, .95, 2995}, {.95, .99, 90}} {
		out = append(out, cite.Check{
			ID: fmt.Sprintf("stat.zero.%g.%g", 100*c.r, 100*c.conf), Case: fmt.Sprintf("Tests without failure for reliability %g with confidence %g", c.r, c.conf),
			Source: "CommonPractice", Unit: "1", Published: float64(c.n), Allowed: 0, Mark: cite.Regression, Note: "arithmetic of n = ln(1-C)/ln R",
			Ours: func() float64 { n, err := ZeroFailureN(c.r, c.conf); return cite.Or(float64(n), err) },
		})
	}
	for _, c := range []struct {
		x, n int
		u    float64
	}{{0, 24, 11.7}, {1, 24, 18.3}, {0, 60, 4.9}, {0, 12, 22.1}, {1, 12, 33.9}} {
		out = append(out, cite.Check{
			ID: fmt.Sprintf("stat.fraction.%d.%d", c.x, c.n), Case: fmt.Sprintf("95 %% upper limit on the failing fraction, %d of %d", c.x, c.n),
			Source: "ClopperPearson1934", Unit: "%", Published: c.u, Allowed: 0.05001, Mark: cite.Independent, Note: "one decimal",
			Ours: func() float64 { return 100 * cite.Or(dist.FractionUpper(c.x, c.n, 0.95)) },
		})
	}
	return append(out, cite.Check{
		ID: "stat.order.59", Case: "Smallest n whose least value bounds 95 % with 95 % confidence, any distribution", Source: "NIST2012", Unit: "1",
		Published: 59, Allowed: 0, Mark: cite.Memory,
		Ours: func() float64 {
			n, ok, err := smallest(1, 200, func(n int) (bool, error) { r, err := OrderRank(n, Usual()); return r > 0, err })
			if !ok {
				return math.NaN()
			}
			return cite.Or(float64(n), err)
		},
	})
}

func capabilityChecks() []cite.Check {
	var out []cite.Check
	for _, c := range []struct {
		n                int
		v, cpLow, cpkLow float64
	}{{30, 1.33, 1.0393, 1.0258}, {50, 1.33, 1.1067, 1.0958}, {125, 1.33, 1.1901, 1.1827}, {30, 1.0, 0, .7619}, {100, 1.5, 0, 1.3163}} {
		if c.cpLow > 0 {
			out = append(out, cite.Check{
				ID: fmt.Sprintf("stat.cp.%d", c.n), Case: fmt.Sprintf("95 %% lower bound of Cp %g, n %d", c.v, c.n), Source: "NIST2012", Unit: "1",
				Published: c.cpLow, Allowed: 0.0001, Mark: cite.Independent, Note: "by another program",
				Ours: func() float64 { b, err := CpBounds(c.v, c.n-1, .95); return cite.Or(b.Approx, err) },
			})
		}
		out = append(out, cite.Check{
			ID: fmt.Sprintf("stat.cpk.%g.%d", c.v, c.n), Case: fmt.Sprintf("95 %% lower bound of Cpk %g by Bissell, n %d", c.v, c.n), Source: "Bissell1990", Unit: "1",
			Published: c.cpkLow, Allowed: 0.0001, Mark: cite.Independent, Note: "by another program",
			Ours: func() float64 { b, err := CpkBounds(c.v, c.n, c.n-1, .95); return cite.Or(b.Approx, err) },
		})
	}
	for _, c := range []struct {
		n    int
		need float64
	}{{5, 3.200}, {10, 2.219}, {20, 1.845}, {30, 1.720}, {50, 1.612}, {100, 1.517}} {
		out = append(out, cite.Check{
			ID: fmt.Sprintf("stat.cpk.need.%d", c.n), Case: fmt.Sprintf("Cpk to be seen in n %d to assert 1.33 with 95 %%", c.n), Source: "Owen1968", Unit: "1",
			Published: c.need, Allowed: 0.0005001, Mark: cite.Independent, Note: "by another program's non-central t",
			Ours: func() float64 { return cite.Or(CpkNeeded(c.n, 1.33, .95)) },
		})
	}
	nist := func(pick func(Capability) float64) func() float64 {
		return func() float64 {
			c, err := Normal{N: 50, Mean: 16, S: 2}.Capability(Spec{Lower: 8, Upper: 20, HasLower: true, HasUpper: true}, 0.95)
			return cite.Or(pick(c), err)
		}
	}
	return append(out,
		cite.Check{
			ID: "stat.cp.nist", Case: "Cp, limits 8 and 20, mean 16, s 2", Source: "NIST2012", Unit: "1", Published: 1, Allowed: 1e-12, Mark: cite.Memory, Note: "section 6.1.6",
			Ours: nist(func(c Capability) float64 { return c.Pp.Value }),
		},
		cite.Check{
			ID: "stat.cpk.nist", Case: "Cpk of the same", Source: "NIST2012", Unit: "1", Published: .6667, Allowed: 0.00005, Mark: cite.Memory, Note: "section 6.1.6",
			Ours: nist(func(c Capability) float64 { return c.Ppk.Value }),
		})
}

func outlierChecks() []cite.Check {
	step := func(i int, pick func(Suspect) float64) func() float64 {
		return func() float64 {
			s, _, err := ESD(rosner(), 10, 0.05)
			if err != nil {
				return math.NaN()
			}
			return pick(s[i])
		}
	}
	g := func(s Suspect) float64 { return s.G }
	crit := func(s Suspect) float64 { return s.Critical }
	return []cite.Check{
		{
			ID: "stat.grubbs.g", Case: "Grubbs statistic of the mass-spectrometer readings", Source: "NIST2012", Unit: "1", Published: 2.4687, Allowed: 0.0001, Mark: cite.Independent, Note: "section 1.3.5.17.1",
			Ours: func() float64 { s, err := Grubbs(nistGrubbs(), 0.05); return cite.Or(s.G, err) },
		},
		{
			ID: "stat.grubbs.critical", Case: "Critical value for one large outlier among 8 at 5 %", Source: "NIST2012", Unit: "1", Published: 2.032, Allowed: 0.0005, Mark: cite.Memory, Note: "section 1.3.5.17.1",
			Ours: func() float64 { return cite.Or(GrubbsCriticalOneSided(8, 0.05)) },
		},
		{ID: "stat.esd.r1", Case: "First statistic of Rosner's data", Source: "Rosner1983", Unit: "1", Published: 3.118, Allowed: 0.001, Mark: cite.Independent, Note: "printed cut to three decimals", Ours: step(0, g)},
		{ID: "stat.esd.r3", Case: "Third statistic of Rosner's data", Source: "Rosner1983", Unit: "1", Published: 3.179, Allowed: 0.001, Mark: cite.Independent, Note: "printed cut to three decimals", Ours: step(2, g)},
		{ID: "stat.esd.lambda1", Case: "First critical value of Rosner's data", Source: "Rosner1983", Unit: "1", Published: 3.158, Allowed: 0.001, Mark: cite.Independent, Note: "printed cut to three decimals", Ours: step(0, crit)},
		{ID: "stat.esd.lambda10", Case: "Tenth critical value of Rosner's data", Source: "Rosner1983", Unit: "1", Published: 3.085, Allowed: 0.001, Mark: cite.Independent, Note: "printed cut to three decimals", Ours: step(9, crit)},
		{
			ID: "stat.esd.count", Case: "Outliers in Rosner's data", Source: "Rosner1983", Unit: "1", Published: 3, Allowed: 0, Mark: cite.Independent,
			Ours: func() float64 { _, n, err := ESD(rosner(), 10, 0.05); return cite.Or(float64(n), err) },
		},
		{
			ID: "stat.anderson.5", Case: "Probability at the 5 % point 0.752 of the normality test", Source: "DAgostinoStephens1986", Unit: "1", Published: 0.05, Allowed: 0.001, Mark: cite.Memory,
			Ours: func() float64 { return adProbability(0.752) },
		},
		{
			ID: "stat.anderson.1", Case: "Probability at the 1 % point 1.035 of the normality test", Source: "DAgostinoStephens1986", Unit: "1", Published: 0.01, Allowed: 0.0003, Mark: cite.Memory,
			Ours: func() float64 { return adProbability(1.035) },
		},
	}
}

func varianceChecks() []cite.Check {
	anova := func(pick func(ANOVA) float64) func() float64 {
		return func() float64 { a, err := OneWay(siRstv()); return cite.Or(pick(a), err) }
	}
	line := func(pick func(Line) float64) func() float64 {
		return func() float64 { x, y := norris(); l, err := FitLine(x, y); return cite.Or(pick(l), err) }
	}
	chart := func(pick func(Chart) float64) func() float64 {
		return func() float64 {
			c, err := Individuals([]float64{49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1})
			return cite.Or(pick(c), err)
		}
	}
	gauge := func(pick func(GaugeStudy) float64) func() float64 {
		return func() float64 { g, err := Gauge(aiag(), 0.25); return cite.Or(pick(g), err) }
	}
	row := func(id, what, source, u string, published, allowed float64, mark cite.Mark, note string, ours func() float64) cite.Check {
		return cite.Check{ID: id, Case: what, Source: source, Unit: u, Published: published, Allowed: allowed, Mark: mark, Note: note, Ours: ours}
	}
	const certified = "certified value"
	return []cite.Check{
		row("stat.anova.f", "F of the silicon resistivities", "NIST1998", "1", 1.18046237440255, 1e-8, cite.Independent, certified, anova(func(a ANOVA) float64 { return a.F })),
		row("stat.anova.between", "Sum of squares between instruments", "NIST1998", "(ohm·cm)²", 5.11462616e-2, 1e-10, cite.Independent, certified, anova(func(a ANOVA) float64 { return a.BetweenSS })),
		row("stat.anova.within", "Residual standard deviation", "NIST1998", "ohm·cm", 0.104076068334656, 1e-10, cite.Independent, certified, anova(func(a ANOVA) float64 { return a.WithinS })),
		row("stat.line.slope", "Slope of Norris", "NIST1998", "1", 1.00211681802045, 1e-12, cite.Independent, certified, line(func(l Line) float64 { return l.Slope })),
		row("stat.line.intercept", "Intercept of Norris", "NIST1998", "1", -0.262323073774029, 1e-11, cite.Independent, certified, line(func(l Line) float64 { return l.Intercept })),
		row("stat.line.s", "Residual standard deviation of Norris", "NIST1998", "1", 0.884796396144373, 1e-11, cite.Independent, certified, line(func(l Line) float64 { return l.S })),
		row("stat.line.r2", "R² of Norris", "NIST1998", "1", 0.999993745883712, 1e-13, cite.Independent, certified, line(func(l Line) float64 { return l.R2 })),
		row("stat.chart.lower", "Lower control limit of ten flow rates", "NIST2012", "1", 45.8159, 0.002, cite.Memory, "section 6.3.2.2, which rounds d2 to 1.128", chart(func(c Chart) float64 { return c.Lower })),
		row("stat.chart.upper", "Upper control limit of ten flow rates", "NIST2012", "1", 55.8041, 0.002, cite.Memory, "section 6.3.2.2, which rounds d2 to 1.128", chart(func(c Chart) float64 { return c.Upper })),
		row("stat.gauge.part", "Sum of squares of parts", "AIAG2010", "1", 88.3619, 0.0001, cite.Memory, "data and table recalled", gauge(func(g GaugeStudy) float64 { return g.PartSS })),
		row("stat.gauge.appraiser", "Sum of squares of appraisers", "AIAG2010", "1", 3.1673, 0.0001, cite.Memory, "data and table recalled", gauge(func(g GaugeStudy) float64 { return g.AppraiserSS })),
		row("stat.gauge.interaction", "Sum of squares of the interaction", "AIAG2010", "1", 0.3590, 0.0001, cite.Memory, "data and table recalled", gauge(func(g GaugeStudy) float64 { return g.InteractionSS })),
		row("stat.gauge.equipment", "Sum of squares of the equipment", "AIAG2010", "1", 2.7589, 0.0001, cite.Memory, "data and table recalled", gauge(func(g GaugeStudy) float64 { return g.EquipmentSS })),
		row("stat.gauge.grr", "Gauge share of the total", "AIAG2010", "%", 27.86, 0.005001, cite.Memory, "data and table recalled", gauge(func(g GaugeStudy) float64 { return g.Share(g.GRR) })),
		row("stat.gauge.ndc", "Distinct categories", "AIAG2010", "1", 4, 0, cite.Memory, "4.86 rounded down", gauge(func(g GaugeStudy) float64 { return float64(g.Categories()) })),
	}
}

func weibullChecks() []cite.Check {
	fit := func(pick func(Weibull) (float64, error)) func() float64 {
		return func() float64 {
			w, err := FitWeibull(nistWeibull())
			if err != nil {
				return math.NaN()
			}
			return cite.Or(pick(w))
		}
	}
	row := func(id, what string, published, allowed float64, mark cite.Mark, note string, pick func(Weibull) (float64, error)) cite.Check {
		return cite.Check{ID: id, Case: what, Source: "NIST2012", Unit: "as the data", Published: published, Allowed: allowed, Mark: mark, Note: note, Ours: fit(pick)}
	}
	const nist, ours = "section 8.4.1.3", "own earlier fit of the same data"
	return []cite.Check{
		row("stat.weibull.beta", "Shape, ten failures and ten censored at 500 h", 1.7208, 0.0001, cite.Independent, nist, func(w Weibull) (float64, error) { return w.Beta, nil }),
		row("stat.weibull.eta", "Scale", 606.5280, 0.001, cite.Independent, nist, func(w Weibull) (float64, error) { return w.Eta, nil }),
		row("stat.weibull.loglik", "Log likelihood", -75.135, 0.0005001, cite.Independent, nist, func(w Weibull) (float64, error) { return w.LogLik, nil }),
		row("stat.weibull.aic", "Akaike criterion", 154.27, 0.005001, cite.Independent, nist, func(w Weibull) (float64, error) { return w.AIC(), nil }),
		row("stat.weibull.mean", "Mean", 540.737, 0.001, cite.Independent, nist, func(w Weibull) (float64, error) { return w.Mean(), nil }),
		row("stat.weibull.sd", "Standard deviation", 323.806, 0.001, cite.Independent, nist, func(w Weibull) (float64, error) { return w.SD(), nil }),
		row("stat.weibull.b10", "Life at which 10 % have failed", 164.02, 0.005001, cite.Regression, ours, func(w Weibull) (float64, error) { return w.Quantile(0.1) }),
		row("stat.weibull.se", "Standard error of ln shape", 0.29181, 0.000005001, cite.Regression, ours, func(w Weibull) (float64, error) { a, _ := w.LogErrors(); return a, nil }),
		row("stat.weibull.shape.lo", "95 % lower end of the shape", 0.971, 0.0005001, cite.Regression, ours, func(w Weibull) (float64, error) { b, _, err := w.Wald(.95); return b[0], err }),
		row("stat.weibull.scale.hi", "95 % upper end of the scale", 908.1, 0.05001, cite.Regression, ours, func(w Weibull) (float64, error) { _, e, err := w.Wald(.95); return e[1], err }),
	}
}

func agreementChecks() []cite.Check {
	return []cite.Check{
		{
			ID: "stat.kappa.cohen", Case: "Cohen's kappa, 50 proposals and two readers", Source: "Cohen1960", Unit: "1", Published: 0.4, Allowed: 1e-12, Mark: cite.Memory, Note: "common textbook example; by hand (0.7-0.5)/(1-0.5)",
			Ours: func() float64 { a, b := cohen(); k, _, err := CohenKappa(a, b); return cite.Or(k, err) },
		},
		{
			ID: "stat.kappa.fleiss", Case: "Fleiss's kappa, ten subjects and fourteen raters", Source: "Fleiss1971", Unit: "1", Published: 0.210, Allowed: 0.0005, Mark: cite.Independent,
			Ours: func() float64 { return cite.Or(FleissKappa(fleiss())) },
		},
	}
}
