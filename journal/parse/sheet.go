package parse

import (
	"fmt"

	"example.org/locknut/journal/markdown"
	"example.org/locknut/journal/source"
)

// Build is a build sheet as it was decoded.
type Build struct {
	File   *source.File
	Fields *Fields        // nil while it can't be read
	Home   *markdown.Body // the words for the front page, nil where there are none; its places are in the sheet
}

// Part is one part of a parts file.
type Part struct {
	Name   string // folded
	Typed  string
	NameAt source.Range
	File   *source.File
	Fields *Fields
}

// Tool is one tool, person or shop of a tools file.
type Tool struct {
	Name   string // folded
	Typed  string
	NameAt source.Range
	File   *source.File
	Fields *Fields
}

// LimitFile is a file of limits. Read is false while its text is broken.
type LimitFile struct {
	File   *source.File
	Limits []*Limit
	Read   bool
}

// PartFile is a file of parts. Read is false while its text is broken.
type PartFile struct {
	File  *source.File
	Parts []*Part
	Read  bool
}

// ToolFile is a file of tools. Read is false while its text is broken.
type ToolFile struct {
	File  *source.File
	Tools []*Tool
	Read  bool
}

// sheet opens a sheet: its TOML, or nil where it can't be read.
func (d *decoder) sheet() *node {
	if !d.readable(MaxSheet) {
		return nil
	}
	start := d.body()
	return d.document(start, len(d.file.Text))
}

// DecodeBuild decodes `build.toml`.
func DecodeBuild(file *source.File, options markdown.Options) (*Build, []source.Finding) {
	d := &decoder{file: file}
	build := &Build{File: file}
	if root := d.sheet(); root != nil {
		build.Fields = d.table(root, buildKeys)
	}
	if home := build.Fields.Table("site").Text("home"); !home.IsZero() {
		build.Home = home.markdown(options)
		d.findings = append(d.findings, build.Home.Findings...)
	}
	return build, d.findings
}

// markdown renders a text of a sheet as Markdown. The places are those in the sheet.
func (t Text) markdown(options markdown.Options) *markdown.Body {
	body := markdown.Render(source.NewFile(t.At.File.Name, t.Text), 0, len(t.Text), options)
	in := func(at *source.Range) { *at = t.strand.span(at.Start, at.End) }
	for i := range body.Holes {
		in(&body.Holes[i].At)
		in(&body.Holes[i].TargetAt)
		in(&body.Holes[i].TextAt)
	}
	for i := range body.Headings {
		in(&body.Headings[i].At)
	}
	for i := range body.Tasks {
		in(&body.Tasks[i].At)
	}
	for i := range body.Findings {
		f := &body.Findings[i]
		in(&f.At)
		f.Fixes = nil // an edit of the text would have to be escaped for the sheet
	}
	return body
}

// DecodeLimits decodes a file of limits.
func DecodeLimits(file *source.File) (*LimitFile, []source.Finding) {
	d := &decoder{file: file}
	limits := &LimitFile{File: file}
	if root := d.sheet(); root != nil {
		limits.Limits, limits.Read = d.limitTree(root), true
	}
	return limits, d.findings
}

// DecodeParts decodes a file of parts.
func DecodeParts(file *source.File) (*PartFile, []source.Finding) {
	d := &decoder{file: file}
	parts := &PartFile{File: file}
	if root := d.sheet(); root != nil {
		parts.Read = true
		d.named(root, "part", partKeys, func(n *node, fields *Fields) {
			parts.Parts = append(parts.Parts, &Part{Name: Fold(n.key), Typed: n.key, NameAt: n.keyAt, File: file, Fields: fields})
		})
	}
	return parts, d.findings
}

// DecodeTools decodes a file of tools.
func DecodeTools(file *source.File) (*ToolFile, []source.Finding) {
	d := &decoder{file: file}
	tools := &ToolFile{File: file}
	if root := d.sheet(); root != nil {
		tools.Read = true
		d.named(root, "tool", toolKeys, func(n *node, fields *Fields) {
			tools.Tools = append(tools.Tools, &Tool{Name: Fold(n.key), Typed: n.key, NameAt: n.keyAt, File: file, Fields: fields})
		})
	}
	return tools, d.findings
}

// named decodes a file whose tables are named by the builder.
func (d *decoder) named(root *node, what string, keys *Key, add func(*node, *Fields)) {
	seen := map[string]*node{}
	for _, n := range root.keys {
		if first := seen[Fold(n.key)]; first != nil {
			d.spelledTwice(first, n)
			continue
		}
		seen[Fold(n.key)] = n
		if n.kind == nodeTables {
			d.report("wrong-kind", source.Error, n.place(), Fold(n.key), fmt.Sprintf("`%s` is a list of tables; each %s has one table", n.key, what), fmt.Sprintf("write `[%s]`, once", n.key))
			continue
		}
		if !n.isTable() {
			d.report("wrong-kind", source.Error, n.keyAt, Fold(n.key), fmt.Sprintf("`%s` stands above the first %s", n.key, what), fmt.Sprintf("each %s has a table of its own: `[name]`", what))
			continue
		}
		if !d.goodName(n.key, n.keyAt, nil) {
			continue
		}
		add(n, d.table(n, keys))
	}
}
