package parse

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"sync"

	"example.org/locknut/journal/quantity"
)

// PropertyClasses are the property classes of bolts of ISO 898-1, weakest first. They are labels: 10.9 is not more than 8.8 by 2.1.
var PropertyClasses = []string{"4.6", "4.8", "5.6", "5.8", "6.8", "8.8", "9.8", "10.9", "12.9"}

// Class is the strength class or grade of a fastener as a limit names it.
type Class struct {
	Label string // a property class of ISO 898-1; empty for another grade
	Why   string // why nothing is reckoned from another grade
}

var (
	classLabel  = late(`^(?:class |cl\.? ?|property class )?(\d{1,2})([.,])(\d)(U|u)?$`)
	joinedLabel = late(`^(?:class |cl\.? ?)?(46|48|56|58|68|88|98|109|129)$`)
	bareNumber  = late(`^\d{1,3}$`)
	stainless   = late(`^[AaCcFf]\d[ -]?\d{2,3}$`)
	grade       = late(`(?i)^(?:SAE )?(?:grade|gr\.?) ?(\d(?:\.\d)?)$|^SAE ?(\d(?:\.\d)?)$`)
)

// late compiles a regular expression where it is asked for first: few journals have a use for all of them.
func late(pattern string) func() *regexp.Regexp {
	return sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(pattern) })
}

// ParseClass reads the class of a fastener: `8.8`, `10.9`. A grade of another standard, or in words, is none that can be reckoned with, and says why; a label that
// looks like a property class and is none gives a slip.
func ParseClass(text string) (Class, *quantity.Slip) {
	words := strings.Join(strings.Fields(text), " ")
	m := classLabel().FindStringSubmatch(words)
	slip := &quantity.Slip{Kind: "bad-class", End: len(text), Do: "property classes of bolts: " + strings.Join(PropertyClasses, ", ")}
	switch {
	case m != nil && slices.Contains(PropertyClasses, m[1]+"."+m[3]) && m[2] == ",":
		slip.Kind, slip.Message, slip.Do, slip.Offers = "decimal-comma", fmt.Sprintf("`%s` has a comma", text), "a property class is a label with a point", []string{m[1] + "." + m[3]}
		return Class{}, slip
	case m != nil && slices.Contains(PropertyClasses, m[1]+"."+m[3]):
		return Class{Label: m[1] + "." + m[3]}, nil
	case m != nil:
		slip.Message = fmt.Sprintf("`%s` is not a property class", text)
		for _, label := range PropertyClasses {
			if strings.HasPrefix(label, m[1]+".") {
				slip.Offers = append(slip.Offers, label)
			}
		}
		return Class{}, slip
	case swappedLabel(words) != "":
		slip.Message, slip.Offers = fmt.Sprintf("`%s` is not a property class", text), []string{swappedLabel(words)}
		return Class{}, slip
	case joinedLabel().MatchString(words):
		joined := joinedLabel().FindStringSubmatch(words)[1]
		slip.Message, slip.Offers = fmt.Sprintf("`%s` lacks its point", text), []string{joined[:len(joined)-1] + "." + joined[len(joined)-1:]}
		return Class{}, slip
	case stainless().MatchString(words):
		return Class{Why: fmt.Sprintf("`%s` is a class of stainless steel (ISO 3506), whose strength isn't known here", text)}, nil
	case grade().MatchString(words):
		return Class{Why: fmt.Sprintf("`%s` is an SAE grade, whose strength isn't known here", text)}, nil
	case bareNumber().MatchString(words):
		return Class{Why: fmt.Sprintf("`%s` may be a nut's class or an SAE grade, and is no property class of a bolt", text)}, nil
	}
	return Class{Why: fmt.Sprintf("the strength of `%s` isn't known here", text)}, nil
}

// swappedLabel returns the property class whose two numbers stand the wrong way round in a text, as in `9.10`; "" for none.
func swappedLabel(text string) string {
	first, second, _ := strings.Cut(text, ".")
	if label := second + "." + first; slices.Contains(PropertyClasses, label) {
		return label
	}
	return ""
}

// class decodes the class of a fastener. Its text is kept as typed.
func (d *decoder) class(f *Field, n *node) bool {
	if !d.text(f, n) {
		return false
	}
	if _, slip := ParseClass(n.text); slip != nil {
		d.wordSlip(f, n, slip)
		return false
	}
	return true
}
