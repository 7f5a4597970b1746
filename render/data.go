package render

import "strconv"

// dataName is the file of all values of the site, for programs. More than perFile go on in further files, each of which names the next.
const dataName = "journal.json"

const perFile = 1000

// dataSheets are the files of values: what `locknut export --public` writes, in pieces.
func (s *site) dataSheets() []sheet {
	var sheets []sheet
	export := s.Export(s.numbers)
	for from := 0; from < export.Len() || from == 0; from += perFile {
		to, next := min(from+perFile, export.Len()), ""
		if to < export.Len() {
			next = dataFile(len(sheets) + 1)
		}
		sheets = append(sheets, sheet{dataFile(len(sheets)), func(p *page) { p.bytes = export.AppendJSON(p.bytes, from, to, next) }})
	}
	return sheets
}

// dataFile is the name of a file of values, counted from 0.
func dataFile(i int) string {
	if i == 0 {
		return dataName
	}
	return "journal-" + strconv.Itoa(i+1) + ".json"
}
