package unit

import (
	"slices"
	"strings"
)

// hasMoney tells whether the units of a kind begin with a currency.
func hasMoney(k Kind) bool { return slices.Contains(moneyKinds, k) }

// currencySigns are the signs read as a code. "$" is read as USD.
var currencySigns = []struct{ sign, code string }{{"€", "EUR"}, {"$", "USD"}, {"£", "GBP"}}

// moneyKinds are the kinds whose units begin with a currency.
var moneyKinds = []Kind{Money, PricePerMass, PricePerEnergy, PricePerThousand}

// Currency returns the code with which the symbol of a kind of money begins:
// "EUR" of "EUR/kg". Any three capital letters are one, alone or before what a
// price may be given per, unless they are a unit themselves as in "BTU/lb". It
// is false where no code stands.
func Currency(symbol string) (string, bool) {
	code, ok := leadingCode(symbol)
	if !ok {
		return "", false
	}
	for _, k := range moneyKinds {
		if _, ok := table().byKind[k].find("EUR" + symbol[3:]); ok {
			return code, true
		}
	}
	return "", false
}

// leadingCode returns the three capital letters that s begins with, unless
// they are part of a word or a unit of another kind.
func leadingCode(s string) (string, bool) {
	if len(s) < 3 || len(s) > 3 && isLetter(s[3]) {
		return "", false
	}
	for i := 0; i < 3; i++ {
		if s[i] < 'A' || s[i] > 'Z' {
			return "", false
		}
	}
	for _, e := range table().list {
		if _, taken := table().byKind[e.kind].exact[s[:3]]; taken && !hasMoney(e.kind) {
			return "", false
		}
	}
	return s[:3], true
}

func isLetter(b byte) bool { return 'a' <= b && b <= 'z' || 'A' <= b && b <= 'Z' || b >= 0x80 }

// WithCurrency returns the symbol of a kind of money with its currency
// replaced, "EUR/kg" and "USD" giving "USD/kg". It names the currency and
// converts nothing. A symbol without a currency, or a code that is not three
// capital letters, returns the symbol as it is.
func WithCurrency(symbol, code string) string {
	if _, ok := Currency(code); !ok || len(code) != 3 {
		return symbol
	}
	if _, ok := Currency(symbol); !ok {
		return symbol
	}
	return code + symbol[3:]
}

// findMoney finds a unit of money of any currency.
func findMoney(p *page, name string) (Unit, bool) {
	for _, s := range currencySigns {
		if rest, ok := strings.CutPrefix(name, s.sign); ok {
			name = s.code + rest
		}
	}
	code, ok := leadingCode(name)
	if !ok {
		return Unit{}, false
	}
	u, ok := p.find("EUR" + name[3:])
	if !ok {
		return Unit{}, false
	}
	u.Symbol, u.Aliases = WithCurrency(u.Symbol, code), nil
	return u, true
}

// currencyFirst moves a currency written before the number behind it:
// "€1.15/kg" and "EUR 1.15/kg" become "1.15 EUR/kg". Other text is returned
// as it is.
func currencyFirst(text string) string {
	for _, s := range currencySigns {
		if rest, ok := strings.CutPrefix(text, s.sign); ok {
			text = s.code + rest
			break
		}
	}
	code, ok := leadingCode(text)
	if !ok {
		return text
	}
	rest := strings.TrimLeft(text[3:], " ")
	n := numberLength(rest)
	if n == 0 {
		return text
	}
	return rest[:n] + " " + code + rest[n:]
}
