package main

import (
	"fmt"
	"io"
	"text/tabwriter"

	"costrel/project/report"
	"costrel/project/run"
	"costrel/unit"
)

// writeSheet prints the process sheet: card, sections, course, balances.
func writeSheet(w io.Writer, sheet []run.Sheet, sys unit.System, money string) error {
	for _, s := range spelled(sheet, sys) {
		fmt.Fprintf(w, "\n%s\n", s.Title)
		t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
		for _, r := range s.Rows {
			fmt.Fprintf(t, "  %s\t%s\n", r.Label, rowText(r, sys, money))
		}
		if err := t.Flush(); err != nil {
			return err
		}
	}
	return nil
}

// spelled writes the quantities in the words of a sheet in the units of the reader.
func spelled(sheet []run.Sheet, sys unit.System) []run.Sheet {
	out := make([]run.Sheet, 0, len(sheet))
	for _, s := range sheet {
		rows := make([]run.SheetRow, len(s.Rows))
		for i, r := range s.Rows {
			r.Label, r.Text = unit.Spell(r.Label, sys), unit.Spell(r.Text, sys)
			rows[i] = r
		}
		s.Rows = rows
		out = append(out, s)
	}
	return out
}

func rowText(r run.SheetRow, sys unit.System, money string) string {
	switch {
	case r.Text != "":
		return r.Text
	case r.Kind == "":
		return fmt.Sprintf("%g", r.Value)
	case r.Unit != "":
		us := r.Unit
		if unit.Preferred(r.Kind, unit.EU) != unit.Preferred(r.Kind, unit.US) {
			us = ""
		}
		if symbol := unit.Shown(r.Kind, r.Unit, us, sys); symbol != "" {
			return unit.Format(r.Kind, r.Value, symbol, 4)
		}
	}
	return report.Show(r.Kind, r.Value, sys, money)
}
