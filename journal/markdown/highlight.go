package markdown

import (
	"crypto/sha256"
	"strings"
	"sync"

	"github.com/alecthomas/chroma/v2"
)

// Highlighter colours blocks of code by their language and remembers them by content, so that each is worked on once. One is
// shared between all goroutines of a build. The zero value is ready.
type Highlighter struct {
	mu     sync.Mutex
	blocks map[[sha256.Size]byte]*highlighted
	size   int // bytes of code remembered
}

type highlighted struct {
	once sync.Once
	html string
}

const (
	maxRemembered = 8 << 20  // bytes of code; past that it starts anew
	maxColoured   = 64 << 10 // a longer block stays plain: colour is no help there, and some languages take long
)

// highlight returns a block of code as HTML. Code of an unknown language, and any that its lexer can't give back letter for
// letter, is escaped and left plain.
func (h *Highlighter) highlight(language, code string) string {
	key := sha256.Sum256([]byte(language + "\x00" + code))
	h.mu.Lock()
	block := h.blocks[key]
	if block == nil {
		if h.blocks == nil || h.size > maxRemembered {
			h.blocks, h.size = map[[sha256.Size]byte]*highlighted{}, 0
		}
		block = &highlighted{}
		h.blocks[key] = block
		h.size += len(code)
	}
	h.mu.Unlock()
	block.once.Do(func() { block.html = colour(language, code) })
	return block.html
}

func colour(language, code string) string {
	tokens := tokenise(language, code)
	var b buffer
	open := ""
	for _, token := range tokens {
		class := codeClass(token.Type)
		if strings.TrimSpace(token.Value) == "" {
			class = open // blanks have no colour; they need no tags of their own
		}
		if class != open {
			if open != "" {
				b.WriteString("</span>")
			}
			if class != "" {
				b.WriteString(`<span class="` + class + `">`)
			}
			open = class
		}
		b.text(token.Value)
	}
	if open != "" {
		b.WriteString("</span>")
	}
	return string(b.bytes)
}

// tokenise cuts code into tokens that together are the code. Where the library can't, it is one token of plain text.
func tokenise(language, code string) []chroma.Token {
	if len(code) <= maxColoured && isLanguageName(language) {
		if lexer := library().Get(language); lexer != nil {
			return tokensOf(lexer, code)
		}
	}
	return uncut(code)
}

func uncut(code string) []chroma.Token { return []chroma.Token{{Type: chroma.Text, Value: code}} }

func tokensOf(lexer chroma.Lexer, code string) (tokens []chroma.Token) {
	defer func() {
		if recover() != nil { // a lexer's tables can have faults of their own; the text is shown all the same
			tokens = uncut(code)
		}
	}()
	next, err := lexer.Tokenise(&chroma.TokeniseOptions{State: "root"}, code)
	if err != nil {
		return uncut(code)
	}
	for token := next(); token != chroma.EOF; token = next() {
		if tokens = append(tokens, token); len(tokens) > maxTokens(code) {
			return uncut(code)
		}
	}
	rest := code
	for i, token := range tokens {
		cut, ok := strings.CutPrefix(rest, token.Value)
		if !ok {
			if i != len(tokens)-1 || strings.TrimSuffix(token.Value, "\n") != rest { // some lexers end the last line themselves
				return uncut(code)
			}
			tokens[i].Value, cut = rest, ""
		}
		rest = cut
	}
	if rest != "" {
		return uncut(code)
	}
	return tokens
}

// maxTokens returns how many tokens a code can have, those without a letter among them. Some lexers give such for ever where they are stuck.
func maxTokens(code string) int { return 8*len(code) + 1000 }

// isLanguageName keeps file names and other long words from a search through every lexer's patterns.
func isLanguageName(s string) bool {
	return s != "" && len(s) <= 32 && !strings.ContainsAny(s, "./\\*?[]{}<>\"'")
}

// Classes of highlighted code. Each takes its colour from the CSS variable of the same name, which a theme gives; without one
// the code keeps the colour of its block.
const (
	classComment  = "code-comment"
	classKeyword  = "code-keyword"
	className     = "code-name"
	classType     = "code-type"
	classString   = "code-string"
	classNumber   = "code-number"
	classHeading  = "code-heading"
	classInserted = "code-inserted"
	classDeleted  = "code-deleted"
)

// codeClasses lists the classes in the order of the style sheet.
var codeClasses = []string{
	classComment, classKeyword, className, classType, classString, classNumber, classHeading, classInserted, classDeleted,
}

// HighlightCSS returns the style sheet of highlighted code. It holds no colour: a theme sets the variables `--code-comment`,
// `--code-keyword`, `--code-name`, `--code-type`, `--code-string`, `--code-number`, `--code-heading`, `--code-inserted` and
// `--code-deleted`, in light and in dark.
func HighlightCSS() string {
	var b strings.Builder
	for _, class := range codeClasses {
		b.WriteString("." + class + "{color:var(--" + class + ",inherit)}\n")
	}
	return b.String()
}

// codeClass returns the class of a kind of token, or "" where it has no colour of its own.
func codeClass(t chroma.TokenType) string {
	switch {
	case t == chroma.GenericInserted:
		return classInserted
	case t == chroma.GenericDeleted:
		return classDeleted
	case t == chroma.GenericHeading || t == chroma.GenericSubheading:
		return classHeading
	case t.InCategory(chroma.Comment):
		return classComment
	case t == chroma.KeywordType || t == chroma.NameClass || t == chroma.NameBuiltin:
		return classType
	case t.InCategory(chroma.Keyword) || t == chroma.OperatorWord:
		return classKeyword
	case t.InSubCategory(chroma.LiteralNumber) || t == chroma.LiteralDate:
		return classNumber
	case t.InCategory(chroma.Literal):
		return classString
	case t == chroma.Name || t == chroma.NameVariable:
		return ""
	case t.InCategory(chroma.Name):
		return className
	}
	return ""
}
