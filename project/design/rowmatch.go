package design

import (
	"slices"
	"strconv"
	"strings"

	"costrel/project/design/yaml"
	"costrel/unit"
)

// canonical returns the cells of a table in the order of the fields, a
// quantity as its SI value, so that equal cells are equal texts.
func canonical(fields []Field, columns []string, rows [][]string) [][]string {
	out := make([][]string, len(rows))
	for i := range out {
		out[i] = make([]string, len(fields))
	}
	for j, head := range columns {
		key, symbol := columnHead(head)
		at := slices.IndexFunc(fields, func(f Field) bool { return f.Key == key })
		if at < 0 {
			continue
		}
		for i, r := range rows {
			if j < len(r) {
				out[i][at] = canonicalCell(fields[at], symbol, r[j])
			}
		}
	}
	return out
}

func columnHead(head string) (key, symbol string) {
	key, symbol, _ = strings.Cut(strings.TrimSpace(head), " ")
	return key, strings.Trim(strings.TrimSpace(symbol), "()")
}

func canonicalCell(f Field, symbol, text string) string {
	text = strings.TrimSpace(text)
	if f.Kind == "" {
		return text
	}
	if isNumber(text) {
		text = strings.TrimSpace(text + " " + symbol)
	}
	if q, err := unit.Parse(f.Kind, text); err == nil {
		return strconv.FormatFloat(q.SI, 'g', 9, 64)
	}
	return text
}

// nodeRows returns the cells of a list or table of the document, as
// [canonical] does.
func nodeRows(fields []Field, n *yaml.Node) [][]string {
	list, columns := rowsOf(n)
	if list == nil {
		return nil
	}
	var heads []string
	if columns != nil {
		for _, c := range columns.Items {
			heads = append(heads, c.Text)
		}
	} else {
		for _, f := range fields {
			heads = append(heads, f.Key)
		}
	}
	rows := make([][]string, len(list.Items))
	for i, item := range list.Items {
		switch item.Kind {
		case yaml.Scalar:
			rows[i] = []string{item.Text}
		case yaml.List:
			for _, c := range item.Items {
				rows[i] = append(rows[i], c.Text)
			}
		case yaml.Mapping:
			rows[i] = make([]string, len(fields))
			for j, f := range fields {
				if v, ok := item.Get(f.Key); ok {
					rows[i][j] = v.Text
				}
			}
		}
	}
	return canonical(fields, heads, rows)
}

// align returns for each new row the old one that it takes the place of, or
// -1. Rows keep their order; equal rows come first, then rows with the same
// first cell.
func (t *rowEdit) align() []int {
	n, m := len(t.old), len(t.new)
	score := func(i, k int) int32 {
		switch {
		case slices.Equal(t.old[i], t.new[k]):
			return 3
		case len(t.fields) > 1 && t.old[i][0] != "" && t.old[i][0] == t.new[k][0]:
			return 1
		}
		return 0
	}
	best := make([]int32, (n+1)*(m+1)) // of the rows from i and k on
	at := func(i, k int) *int32 { return &best[i*(m+1)+k] }
	for i := n - 1; i >= 0; i-- {
		for k := m - 1; k >= 0; k-- {
			*at(i, k) = max(*at(i+1, k), *at(i, k+1))
			if s := score(i, k); s > 0 {
				*at(i, k) = max(*at(i, k), s+*at(i+1, k+1))
			}
		}
	}
	out := make([]int, m)
	i := 0
	for k := range out {
		out[k] = -1
		for i < n && *at(i, k) == *at(i+1, k) && *at(i, k) > 0 {
			i++
		}
		if i < n && score(i, k) > 0 && *at(i, k) == score(i, k)+*at(i+1, k+1) {
			out[k] = i
			i++
		}
	}
	t.pairGaps(out)
	return out
}

// pairGaps takes a row between two that are matched for the one that stood
// there: its first cell, a measured one, has changed. In a plain list as many
// rows may have changed.
func (t *rowEdit) pairGaps(to []int) {
	if t.fields[0].Kind == "" || len(to) > 1 && len(t.fields) > 1 && !slices.ContainsFunc(to, func(i int) bool { return i >= 0 }) {
		return
	}
	before := 0 // old rows that are taken
	for k := 0; k < len(to); {
		if to[k] >= 0 {
			before = to[k] + 1
			k++
			continue
		}
		end := k
		for end < len(to) && to[end] < 0 {
			end++
		}
		next := len(t.old)
		if end < len(to) {
			next = to[end]
		}
		if gap := end - k; gap == next-before && (gap == 1 || len(t.fields) == 1) {
			for j := range gap {
				to[k+j] = before + j
			}
		}
		k = end
	}
}
