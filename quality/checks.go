package quality

import (
	"costrel/cite"
	"costrel/figure"
	"costrel/unit"
)

// Checks returns the published checks of the package.
func Checks() []cite.Check {
	burst := Limit{Figure: "burst", Side: Min, Value: 9e5, Kind: unit.PressureGauge, Unit: "bar(g)"}
	band := figure.Figure{Kind: unit.PressureGauge, Value: 9.55e5, Lo: 9.1e5, Hi: 10e5}
	return []cite.Check{
		{
			ID: "quality.margin.unit", Case: "Margin of 9.55 bar(g) above a minimum of 9.0 bar(g)", Source: "CommonPractice", Unit: "bar",
			Ours:      func() float64 { m, _ := burst.InUnit(Of(burst, band).Margin); return m },
			Published: 0.55, Allowed: 1e-12, Mark: cite.Regression, Note: "hand calculation",
		},
		{
			ID: "quality.margin.percent", Case: "The same in per cent of the limit", Source: "CommonPractice", Unit: "%",
			Ours:      func() float64 { return Of(burst, band).Percent },
			Published: 100 * 0.55 / 9, Allowed: 1e-9, Mark: cite.Regression, Note: "hand calculation",
		},
	}
}
