package design

import (
	"reflect"
	"strconv"
	"strings"

	"costrel/figure"
	"costrel/unit"
)

// listedTable returns a list or table with its columns in the units of other.
func (doc *Document) listedTable(it Item, v reflect.Value, other *Document, system unit.System) *ListedTable {
	t := &ListedTable{Columns: []string{}, Rows: [][]string{}}
	if v.Type().Elem().Kind() != reflect.Struct {
		symbol := other.columnSymbol(it.Path, tableFields(it)[0], system)
		t.Columns = append(t.Columns, strings.TrimSpace(it.Field.Key+" "+symbol))
		for i := range v.Len() {
			t.Rows = append(t.Rows, []string{exactly(it.Field, doc.Marks[it.Path+index(i)], v.Index(i), symbol)})
		}
		return t
	}
	columns, rows := doc.rows(it.Path, func(f Field) string { return other.columnSymbol(it.Path, f, system) }, exactly)
	t.Columns = append(t.Columns, columns...)
	t.Rows = append(t.Rows, rows...)
	return t
}

// exactly returns a cell in the unit of its column: the number of the document
// with all its digits where it is written in that unit.
func exactly(f Field, m Mark, v reflect.Value, symbol string) string {
	if f.Kind != "" && m.Kind == figure.Given && m.Text != "" {
		if x, err := strconv.ParseFloat(inColumn(f, symbol, m.Text), 64); err == nil {
			if text := strconv.FormatFloat(x, 'f', -1, 64); isNumber(text) {
				return text
			}
		}
	}
	return cellText(f, v, symbol)
}

// columnSymbol returns the unit in which a column is shown: the one that the
// document writes it in, for every reader. Where it has none, or several, it is
// the one that this reader has for what the trade writes.
func (doc *Document) columnSymbol(path string, f Field, system unit.System) string {
	if isMoney(f.Kind) || f.Kind == "" {
		return doc.symbol(f.Kind, system)
	}
	symbol, one := doc.writtenUnit(path, f)
	if one {
		return symbol
	}
	if symbol == "" {
		if symbol = doc.Marks[cellMark(path, 0, f)].Symbol; symbol == "" {
			symbol = f.Trade
		}
	}
	if symbol = doc.fieldSymbol(f.Kind, Mark{Symbol: symbol}, system); symbol == "" {
		symbol = doc.symbol(f.Kind, system)
	}
	return symbol
}

// writtenUnit returns the unit in which the document itself writes the first
// cell of a column; one tells that all of them are in it.
func (doc *Document) writtenUnit(path string, f Field) (symbol string, one bool) {
	v, _, ok := doc.Design.at(path)
	if !ok {
		return "", false
	}
	for i := range v.Len() {
		m := doc.Marks[cellMark(path, i, f)]
		switch {
		case m.Kind != figure.Given || m.Symbol == "" || m.Symbol == symbol:
		case symbol != "":
			return symbol, false
		default:
			symbol = m.Symbol
		}
	}
	return symbol, symbol != ""
}

// cellMark returns the path of a cell; a plain list has no columns.
func cellMark(path string, row int, f Field) string {
	if path[strings.LastIndexByte(path, '.')+1:] == f.Key {
		return path + index(row)
	}
	return path + index(row) + "." + f.Key
}
