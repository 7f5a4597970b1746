package report

import (
	"encoding/json"
	"io"
	"strconv"
	"strings"
	"unicode/utf8"

	"example.org/locknut/journal"
)

// AppendJSON appends the values from one, counted from 0, to before another as one object of JSON, a value a line. Next names the file that goes on; it
// is empty where none does.
func (x *Export) AppendJSON(dst []byte, from, to int, next string) []byte {
	dst = strconv.AppendInt(append(dst, `{"schema":`...), Schema, 10)
	if next != "" {
		dst = appendJSONText(append(dst, `,"next":`...), next)
	}
	dst = append(dst, `,"values":[`...)
	for i := from; i < to; i++ {
		if i > from {
			dst = append(dst, ',')
		}
		row := x.row(i)
		dst = row.appendJSON(append(dst, '\n'))
	}
	if to > from {
		dst = append(dst, '\n')
	}
	return append(dst, "]}\n"...)
}

// ExportJSON writes every value of a journal as one object of JSON, a value a line; see [Export].
func ExportJSON(w io.Writer, result *journal.Result, opts ExportOptions) error {
	x := newExport(result, opts)
	_, err := w.Write(x.AppendJSON(nil, 0, x.Len(), ""))
	return err
}

// appendJSON appends the value as an object whose keys are the columns.
func (v *exported) appendJSON(dst []byte) []byte {
	o := jsonObject(append(dst, '{'))
	o.text("id", v.id)
	o.text("path", v.path)
	o.text("origin", v.origin)
	o.text("entry", v.entry)
	o.text("date", v.date)
	o.number("meter", v.meter)
	o.text("written", v.written)
	o.number("value", v.value)
	if v.hasUnit && v.unit == "" {
		o.key("unit")
		o = append(o, `""`...)
	} else {
		o.text("unit", v.unit)
	}
	o.number("si", v.si)
	o.text("si_unit", v.siUnit)
	o.number("low", v.low)
	o.number("high", v.high)
	o.number("uncertainty", v.uncertainty)
	o.number("nominal", v.nominal)
	o.number("deviation", v.deviation)
	o.text("limit", v.limit)
	o.text("verdict", v.verdict)
	o.key("current")
	o = strconv.AppendBool(o, v.current)
	o.text("file", v.file)
	o.whole("line", v.line)
	o.whole("column", v.column)
	o.text("method", v.method)
	o.key("inputs")
	o = append(o, '[')
	for i, input := range v.inputs {
		if i > 0 {
			o = append(o, ',')
		}
		o = appendJSONText(o, input)
	}
	return append(o, "]}"...)
}

// jsonObject is an object of JSON while it is written. What does not apply is null in it.
type jsonObject []byte

func (o *jsonObject) key(key string) {
	if (*o)[len(*o)-1] != '{' {
		*o = append(*o, ',')
	}
	*o = append(append(append(*o, '"'), key...), `":`...)
}

func (o *jsonObject) text(key, text string) {
	o.key(key)
	if text == "" {
		*o = append(*o, "null"...)
		return
	}
	*o = appendJSONText(*o, text)
}

func (o *jsonObject) number(key string, x float64) {
	o.key(key)
	*o = appendFigure(*o, x, "null")
}

func (o *jsonObject) whole(key string, n int) {
	o.key(key)
	if n == 0 {
		*o = append(*o, "null"...)
		return
	}
	*o = strconv.AppendInt(*o, int64(n), 10)
}

// appendJSONText appends a text as a string of JSON, in which nothing looks like markup. Nearly all need no escapes.
func appendJSONText(dst []byte, text string) []byte {
	if !isPlainJSON(text) {
		quoted, err := json.Marshal(text)
		if err != nil {
			panic(err) // a text can always be encoded
		}
		return append(dst, quoted...)
	}
	return append(append(append(dst, '"'), text...), '"')
}

// isPlainJSON reports whether a text is a string of JSON as it stands.
func isPlainJSON(text string) bool {
	ascii := true
	for i := range len(text) {
		switch c := text[i]; {
		case c < ' ', c == '"', c == '\\', c == '<', c == '>', c == '&':
			return false
		case c >= utf8.RuneSelf:
			ascii = false
		}
	}
	return ascii || utf8.ValidString(text) && !strings.ContainsAny(text, "\u2028\u2029")
}
