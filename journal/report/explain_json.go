package report

import (
	"bytes"
	"fmt"
	"io"

	"example.org/locknut/journal/quantity"
)

// The manual as JSON.
type (
	jsonRule struct {
		Name       string `json:"name"`
		Clause     string `json:"clause"`
		Acceptable bool   `json:"acceptable"`
		Page       string `json:"page"`
	}
	jsonNumber struct {
		Name   string `json:"name"`
		Clause string `json:"clause"`
		Page   string `json:"page"`
	}
	jsonKey struct {
		File       string   `json:"file"`
		Name       string   `json:"name"`
		Kind       string   `json:"kind"`
		Doc        string   `json:"doc"`
		Dimensions []string `json:"dimensions"`
		Unit       *string  `json:"unit"`
		Choices    []string `json:"choices"`
		Needed     bool     `json:"needed"`
	}
	jsonPath struct {
		Path       string   `json:"path"`
		Doc        string   `json:"doc"`
		Dimensions []string `json:"dimensions"`
		Unit       *string  `json:"unit"`
		Words      bool     `json:"words"`
		Worked     bool     `json:"worked"`
	}
	jsonUnit struct {
		Symbol     string   `json:"symbol"`
		Name       string   `json:"name"`
		Dimension  string   `json:"dimension"`
		SIUnit     *string  `json:"si_unit"`
		Factor     float64  `json:"factor"`
		Offset     float64  `json:"offset"`
		Reciprocal bool     `json:"reciprocal"`
		Exact      bool     `json:"exact"`
		Spellings  []string `json:"spellings"`
		OnlyWhere  []string `json:"only_where"`
		Source     string   `json:"source"`
	}
)

// JSON writes the manual, or the part of it, as one object of JSON. A value in SI is (figure + offset) · factor, or factor / figure for a
// reciprocal unit.
func (m Manual) JSON(w io.Writer) error {
	var rules []jsonRule
	for _, r := range m.Rules {
		rules = append(rules, jsonRule{r.Name, r.Clause, !r.Firm, r.Text()})
	}
	var numbers []jsonNumber
	for _, n := range m.Numbers {
		numbers = append(numbers, jsonNumber{n.Name, n.Clause, n.Text()})
	}
	var keys []jsonKey
	for _, k := range m.Keys {
		keys = append(keys, jsonKey{k.File, k.Name, k.Kind.String(), k.Doc, dimensionNames(k.Dimensions), orNull(k.Unit), notNil(k.Choices), k.Needed})
	}
	var paths []jsonPath
	for _, p := range m.Paths {
		paths = append(paths, jsonPath{p.Path, p.Doc, dimensionNames(p.Dimensions), orNull(p.Unit), p.Words, p.Worked})
	}
	var units []jsonUnit
	for _, u := range m.Units {
		units = append(units, jsonUnit{u.Symbol, u.Name, u.Dimension.String(), orNull(siSymbol(u)), u.Factor, u.Offset, u.Reciprocal, u.Exact, notNil(u.Spellings), notNil(u.OnlyWhere), u.Source})
	}
	var out bytes.Buffer
	fmt.Fprintf(&out, "{\"schema\":%d", Schema)
	for _, err := range []error{
		writeNamed(&out, "rules", rules), writeNamed(&out, "numbers", numbers), writeNamed(&out, "keys", keys),
		writeNamed(&out, "paths", paths), writeNamed(&out, "units", units),
	} {
		if err != nil {
			return err
		}
	}
	out.WriteString("}\n")
	_, err := w.Write(out.Bytes())
	return err
}

func writeNamed[T any](out *bytes.Buffer, name string, list []T) error {
	fmt.Fprintf(out, ",\n\"%s\":", name)
	return writeList(out, list)
}

func dimensionNames(dimensions []quantity.Dimension) []string {
	names := []string{}
	for _, d := range dimensions {
		names = append(names, d.String())
	}
	return names
}

func notNil(list []string) []string {
	if list == nil {
		return []string{}
	}
	return list
}
