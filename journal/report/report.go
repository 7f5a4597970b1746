// Package report puts a compiled journal into words and files: findings for a terminal or as JSON, values as JSON or CSV, and the manual of
// rules, numbers, keys, paths and units that `locknut explain` shows.
//
// It hides the formats and nothing else: a result goes in, bytes go out through an io.Writer. The one invariant: the same result gives the
// same bytes, and no text of the builder's reaches a terminal or a spreadsheet as anything but text.
package report

// Schema is the version of the JSON that this package writes. It rises when a field goes or changes its meaning, not when one is added.
const Schema = 1

// Style is how a terminal sets parts of a text apart: what is written before each, and Off after it. The zero value sets nothing apart.
type Style struct {
	Error, Warning, Note string // a severity, and the underline of its place
	Place                string // a file with line and column
	Strong               string // a heading, a name
	Faint                string // what stands beside the matter
	Off                  string
}

// Colours is the style of a terminal that shows colours, by the SGR codes of ECMA-48.
var Colours = Style{Error: "\x1b[31m", Warning: "\x1b[33m", Note: "\x1b[36m", Place: "\x1b[1m", Strong: "\x1b[1m", Faint: "\x1b[2m", Off: "\x1b[0m"}

// paint sets a text apart, where the style has anything for it.
func (s Style) paint(with, text string) string {
	if with == "" {
		return text
	}
	return with + text + s.Off
}

// orNull returns nil, null in JSON, for a text that isn't there.
func orNull(text string) *string {
	if text == "" {
		return nil
	}
	return &text
}
