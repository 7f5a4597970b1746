package report

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"

	"example.org/locknut/journal"
	"example.org/locknut/journal/source"
)

// The findings of a journal as JSON. Lines and columns count from 1, columns in characters; what does not apply is null.
type (
	jsonFinding struct {
		ID       string  `json:"id"`
		Rule     string  `json:"rule"`
		Severity string  `json:"severity"`
		State    string  `json:"state"`
		Path     *string `json:"path"` // the path, part, tool, key or file that it is about
		Entry    *string `json:"entry"`
		jsonPlace
		Message string     `json:"message"`
		Do      *string    `json:"do"`
		Fixes   []jsonFix  `json:"fixes"`
		Notes   []jsonNote `json:"notes"`
	}
	jsonPlace struct {
		File      *string `json:"file"`
		Line      *int    `json:"line"`
		Column    *int    `json:"column"`
		EndLine   *int    `json:"end_line"`
		EndColumn *int    `json:"end_column"`
	}
	jsonFix struct {
		Title string     `json:"title"`
		Edits []jsonEdit `json:"edits"`
	}
	jsonEdit struct {
		jsonPlace
		Text string `json:"text"`
	}
	jsonNote struct {
		File    *string `json:"file"`
		Line    *int    `json:"line"`
		Column  *int    `json:"column"`
		Message string  `json:"message"`
	}
	jsonCounts struct {
		Error    int `json:"error"`
		Warning  int `json:"warning"`
		Note     int `json:"note"`
		Settled  int `json:"settled"`
		Accepted int `json:"accepted"`
	}
)

// JSON writes all findings of a journal, open, settled and accepted, as one object of JSON, a finding a line.
func JSON(w io.Writer, result *journal.Result) error {
	list := make([]jsonFinding, 0, len(result.Findings))
	for _, f := range result.Findings {
		list = append(list, findingJSON(f))
	}
	c := journal.Count(result.Findings)
	counts, err := encode(jsonCounts(c))
	if err != nil {
		return err
	}
	var out bytes.Buffer
	fmt.Fprintf(&out, "{\"schema\":%d,\"findings\":", Schema)
	if err := writeList(&out, list); err != nil {
		return err
	}
	fmt.Fprintf(&out, ",\"counts\":%s}\n", counts)
	_, err = w.Write(out.Bytes())
	return err
}

func findingJSON(f source.Finding) jsonFinding {
	j := jsonFinding{
		ID: f.ID(), Rule: f.Rule, Severity: f.Severity.String(), State: f.State.String(), Path: orNull(f.Subject), Entry: orNull(f.Entry),
		jsonPlace: placeJSON(f.At), Message: f.Message, Do: orNull(f.Do), Fixes: []jsonFix{}, Notes: []jsonNote{},
	}
	for _, fix := range f.Fixes {
		edits := make([]jsonEdit, 0, len(fix.Edits))
		for _, e := range fix.Edits {
			edits = append(edits, editJSON(e))
		}
		j.Fixes = append(j.Fixes, jsonFix{fix.Title, edits})
	}
	for _, note := range f.Notes {
		at := placeJSON(note.At)
		j.Notes = append(j.Notes, jsonNote{at.File, at.Line, at.Column, note.Message})
	}
	return j
}

func placeJSON(at source.Range) jsonPlace {
	if at.IsZero() {
		return jsonPlace{}
	}
	p := jsonPlace{File: &at.File.Name}
	if at.IsWhole() {
		return p
	}
	line, column, endLine, endColumn := at.Position()
	p.Line, p.Column, p.EndLine, p.EndColumn = &line, &column, &endLine, &endColumn
	return p
}

// editJSON places an edit; unlike a range it may be empty.
func editJSON(e source.Edit) jsonEdit {
	line, column := e.File.Position(e.Start)
	endLine, endColumn := e.File.Position(e.End)
	return jsonEdit{jsonPlace{&e.File.Name, &line, &column, &endLine, &endColumn}, e.Text}
}

// encode returns a value as JSON on one line, with `<`, `>` and `&` as they are: it stands in no page.
func encode(v any) ([]byte, error) {
	var out bytes.Buffer
	e := json.NewEncoder(&out)
	e.SetEscapeHTML(false)
	if err := e.Encode(v); err != nil {
		return nil, err
	}
	return bytes.TrimSuffix(out.Bytes(), []byte("\n")), nil
}

// writeList writes a list as JSON, an item a line.
func writeList[T any](out *bytes.Buffer, list []T) error {
	out.WriteByte('[')
	for i := range list {
		if i > 0 {
			out.WriteByte(',')
		}
		out.WriteByte('\n')
		item, err := encode(&list[i])
		if err != nil {
			return err
		}
		out.Write(item)
	}
	if len(list) > 0 {
		out.WriteByte('\n')
	}
	out.WriteByte(']')
	return nil
}
