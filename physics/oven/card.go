package oven

import (
	_ "embed"
	"fmt"
	"math"

	"costrel/cite"
)

//go:embed cards.txt
var cardsText string

var deck = cite.NewDeck("physics/oven/cards.txt", cardsText)

// Cards returns the data of the oven: "absorption", "lamp" and "air".
func Cards() map[string]cite.Card { return deck.ByName() }

// bandCount is the number of bands of the spectrum.
const bandCount = 14

// Band is a part of the spectrum with the absorption of PET in it.
type Band struct {
	From, To   float64 // wavelength [m]
	Absorption float64 // 1/m
}

// Bands returns the bands of the absorption card, 0.4 to 20 µm without gaps.
// Source: Zhang2020.
func Bands() []Band {
	c := deck.Card("absorption")
	out := make([]Band, bandCount)
	for i := range out {
		out[i] = Band{
			From:       c.Value(fmt.Sprintf("edge_%02d", i+1)),
			To:         c.Value(fmt.Sprintf("edge_%02d", i+2)),
			Absorption: c.Value(fmt.Sprintf("kappa_%02d", i+1)),
		}
	}
	return out
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
