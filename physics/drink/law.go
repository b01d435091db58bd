package drink

import (
	"fmt"
	"math"
	"strings"

	"costrel/unit"
)

// Law is one correlation of the solubility of carbon dioxide in water.
type Law struct {
	Name   string // stable
	Title  string
	Source string           // key in cite
	Low    unit.Temperature // range of the fit [K]
	High   unit.Temperature
	Note   string
	// Ideal marks the hand calculation: amounts per litre of solution, an
	// ideal gas, no pressure effect on the solubility, no water vapour.
	Ideal bool

	henry func(T float64) float64
}

// DefaultLaw is the name of the law used when a drink names none.
const DefaultLaw = "plummer-busenberg"

// catalogue lists the laws in the order shown. It is never written to.
var catalogue = [...]Law{
	{
		Name: DefaultLaw, Title: "Plummer and Busenberg 1982", Source: "PlummerBusenberg1982",
		Low: 273.15, High: 363.15, henry: plummerBusenberg,
		Note: "data ‹0 to 90 °C› (range from memory); weiss agrees within 0.8 % over ‹0 to 40 °C›",
	},
	{
		Name: "weiss", Title: "Weiss 1974, moles per kilogram", Source: "Weiss1974",
		Low: 273.15, High: 313.15, henry: weiss,
		Note: "fit ‹0 to 40 °C›",
	},
	{
		Name: "carroll", Title: "Carroll, Slupsky and Mather 1991", Source: "Carroll1991",
		Low: 273.15, High: 433.15, henry: carroll,
		Note: "fit ‹0 to 160 °C› below ‹1 MPa›; 2 % above plummer-busenberg at ‹25 °C›",
	},
	{
		Name: "iapws", Title: "IAPWS guideline on Henry's constant", Source: "IAPWSG704",
		Low: 274.19, High: 642.66, henry: iapwsCO2,
		Note: "fit over the whole liquid range, 5 % below plummer-busenberg at ‹0 °C›, 3 % above at ‹60 °C›",
	},
	{
		Name: "vant-hoff", Title: "Textbook two-parameter law", Source: "Sander2023",
		Low: 283.15, High: 313.15, henry: vantHoff, Ideal: true,
		Note: "textbook two-parameter law, use near ‹25 °C› only: per litre of solution, ideal gas, no Poynting factor, no water vapour; " +
			"within 2.5 % of plummer-busenberg over ‹10 to 40 °C›, 5 % low at ‹4 °C› and at ‹50 °C›",
	},
}

// Laws returns the catalogue of solubility laws.
func Laws() []Law { return append([]Law(nil), catalogue[:]...) }

// LawNamed returns the law of that name; the empty name is DefaultLaw.
func LawNamed(name string) (Law, error) {
	if name == "" {
		name = DefaultLaw
	}
	for i := range catalogue {
		if catalogue[i].Name == name {
			return catalogue[i], nil
		}
	}
	names := make([]string, len(catalogue))
	for i := range catalogue {
		names[i] = catalogue[i].Name
	}
	return Law{}, fmt.Errorf("drink: law: no law %q, want one of %s", name, strings.Join(names, ", "))
}

// Henry returns the solubility [mol/(kg Pa)]: moles of dissolved carbon dioxide
// (carbonic acid included) per kilogram of water and pascal of fugacity, at 1
// atm total pressure. For an Ideal law one litre of solution is written as one
// kilogram and fugacity as partial pressure. The zero Law gives 0.
func (l Law) Henry(t unit.Temperature) float64 {
	if l.henry == nil {
		return 0
	}
	return l.henry(float64(t))
}

// Check returns a warning that names the temperature and the limit when t lies
// outside the range of the fit, and an error outside LowT..HighT.
func (l Law) Check(t unit.Temperature) (warning string, err error) {
	if err := checkT("co2: temperature", t); err != nil {
		return "", err
	}
	if t < l.Low || t > l.High {
		return fmt.Sprintf("drink: co2: temperature ‹%.1f °C› outside ‹%.0f..%.0f °C› of law %s: extrapolated",
			t.Celsius(), l.Low.Celsius(), l.High.Celsius(), l.Name), nil
	}
	return "", nil
}

// plummerBusenberg: log10 K [mol/(kg atm)], T in K. Source: PlummerBusenberg1982.
func plummerBusenberg(T float64) float64 {
	return math.Exp(math.Ln10*(108.3865+0.01985076*T-6919.53/T+669365/(T*T))-40.45154*math.Log(T)) / atm
}

// weiss: ln K [mol/(kg atm)] in pure water. Source: Weiss1974, table 1.
func weiss(T float64) float64 {
	h := T / 100
	return math.Exp(-60.2409+93.4517/h+23.3585*math.Log(h)) / atm
}

// carroll: ln(H/MPa) with H = f/x at infinite dilution. Source: Carroll1991.
func carroll(T float64) float64 {
	h := 1e6 * math.Exp(-6.8346+1.2817e4/T-3.7668e6/(T*T)+2.997e8/(T*T*T))
	return 1 / (h * MolarMassWater)
}

func iapwsCO2(T float64) float64 { return guideline(T, -8.55445, 4.01195, 9.52345) }

// vantHoff: 0.0339 mol/(L bar) at 25 °C, 2400 K. The values lie inside the
// spread collected by Sander2023.
func vantHoff(T float64) float64 {
	return 0.0339e-5 * math.Exp(2400*(1/T-1/298.15))
}
