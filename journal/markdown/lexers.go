package markdown

import (
	"archive/zip"
	_ "embed"
	"encoding/json"
	"encoding/xml"
	"io/fs"
	"strings"
	"sync"

	"github.com/alecthomas/chroma/v2"
)

// Chroma's package of lexers reads the heads of some 270 files whenever a program starts, coloured code or not, which took more than half
// of the time of `locknut --version`. Its lexers are therefore kept here as data, and nothing is read before the first block of code. A test
// writes them and holds them against the library.
//
//go:embed lexers.zip
var lexersZip string

// lexerIndex is the file that lists the lexers, in the library's order: among several that a file's ending fits, it decides.
const lexerIndex = "index.json"

// packedLexer is a line of the index. A lexer without a file of rules has a name and no colours.
type packedLexer struct {
	chroma.Config
	Root string // the lexer for what this one leaves over: HTML, for templates of pages
}

// rulesFile returns the name of a lexer's file in the zip.
func rulesFile(lexer string) string { return lexer + ".xml" }

// library returns the lexers of this program. Each reads its rules where it is used first.
var library = sync.OnceValue(func() *chroma.LexerRegistry { return openLexers(lexersZip) })

// openLexers returns the lexers of a zip; of one that is torn, those that can be had.
func openLexers(packed string) *chroma.LexerRegistry {
	registry := chroma.NewLexerRegistry()
	files, err := zip.NewReader(strings.NewReader(packed), int64(len(packed)))
	if err != nil {
		return registry
	}
	var index []packedLexer
	text, err := fs.ReadFile(files, lexerIndex)
	if err != nil || json.Unmarshal(text, &index) != nil {
		return registry
	}
	for i := range index {
		line := &index[i]
		lexer, err := chroma.NewLexer(&line.Config, func() chroma.Rules { return readRules(files, line.Name) })
		if err == nil {
			registry.Register(lexer)
		}
	}
	for _, line := range index {
		if line.Root != "" {
			registry.Register(chroma.DelegatingLexer(registry.Get(line.Root), registry.Get(line.Name)))
		}
	}
	return registry
}

// readRules returns the rules of a lexer, or none, for which the lexer has an error of its own.
func readRules(files fs.FS, lexer string) chroma.Rules {
	text, err := fs.ReadFile(files, rulesFile(lexer))
	if err != nil {
		return nil
	}
	var rules chroma.Rules
	if err := xml.Unmarshal(text, &rules); err != nil {
		return nil
	}
	return rules
}
