package derive

import (
	"strconv"
	"strings"
	"sync"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// Session is a session of pulls that measured power, and what its air makes of it.
type Session struct {
	Pulls   *model.Pulls
	Carried calc.Standard // by which its figures are corrected
	To      calc.Standard // by which they are compared; what they carry, where the journal names none
	Named   bool          // the journal names what to compare by

	name    string // the end of the paths of its numbers
	kinds   *sessionKinds
	silent  bool   // nothing says by what its figures are corrected
	unknown string // why that, or what they are compared by, can't be told
	unread  bool   // because one of the two can't be read
	air     airRead
	power   func() []*calc.SpeedCurve // of its runs, nil for a run that has none: put together once, when somebody asks
	torque  func() []*calc.SpeedCurve

	powerTold, torqueTold func() curveTold // its mean curves as they are compared: likewise
	lambdaTold            func() []CurvePoint
}

// sessionKinds says what there is among all sessions of a journal.
type sessionKinds struct{ reckoned, wheel, crank bool }

// sessionsOf makes all sessions of a journal ready that measured power, in order of time.
func sessionsOf(j *model.Journal) map[*model.Pulls]*Session {
	to := j.Build.Fields.Table("power")
	standard, named := standardNamed(to.Text("correct-to").Text)
	all := map[*model.Pulls]*Session{}
	twins := map[string]int{}
	kinds := &sessionKinds{}
	for _, e := range j.Entries {
		for _, p := range e.Pulls {
			if p.Peak == nil && p.Torque == nil {
				continue
			}
			s := &Session{Pulls: p, Named: named, kinds: kinds, name: sessionName(p, twins), air: readAir(p.Air)}
			s.power = sync.OnceValue(func() []*calc.SpeedCurve { return curves(p.Runs, quantity.Power) })
			s.torque = sync.OnceValue(func() []*calc.SpeedCurve { return curves(p.Runs, quantity.Torque) })
			s.powerTold = sync.OnceValue(func() curveTold { return s.tellCurve(quantity.Power) })
			s.torqueTold = sync.OnceValue(func() curveTold { return s.tellCurve(quantity.Torque) })
			s.lambdaTold = sync.OnceValue(s.tellLambda)
			var told bool
			s.Carried, told = standardNamed(p.Corrected)
			s.silent, s.To = !told, s.Carried
			switch {
			case p.CorrectedUnread:
				s.unknown, s.unread = "by what its figures are corrected can't be read", true
			case to.IsBad("correct-to"):
				s.unknown, s.unread = "the standard to compare by can't be read", true
			case named && s.silent:
				s.unknown = "nothing says by what its figures are corrected"
			case named:
				s.To = standard
			}
			kinds.reckoned = kinds.reckoned || s.IsReckoned()
			kinds.wheel, kinds.crank = kinds.wheel || p.Where == "wheel", kinds.crank || p.Where == "crank"
			all[p] = s
		}
	}
	return all
}

// standardNamed returns the standard of a designation as the keys list it; false for none.
func standardNamed(designation string) (calc.Standard, bool) {
	for _, s := range calc.Standards {
		if s.String() == designation {
			return s, true
		}
	}
	return calc.Uncorrected, false
}

// sessionName is the entry's address as one segment, which addresses that differ in a dot alone share: the later one is numbered.
func sessionName(p *model.Pulls, twins map[string]int) string {
	name := strings.ReplaceAll(p.Entry.Address(), ".", "-")
	if p.State == "before" {
		name += "-before"
	}
	twins[name]++
	if n := twins[name]; n > 1 {
		name += "-no-" + strconv.Itoa(n)
	}
	return name
}

// IsReckoned reports whether the figures have to be reckoned from one air to another before they are compared.
func (s *Session) IsReckoned() bool { return s.unknown == "" && !alike(s.Carried, s.To) }

// lacks says why the figures can't be reckoned to what they are compared by; "" where they can.
func (s *Session) lacks() string {
	switch {
	case s.unknown != "":
		return s.unknown
	case s.IsReckoned():
		return s.air.without(s.Carried, s.To)
	}
	return ""
}

// Lacks says why the figures can't be put to what they are compared by; "" where they can.
func (s *Session) Lacks() string { return s.lacks() }

// IsUnread reports whether that is so for something that can't be read, which has a finding.
func (s *Session) IsUnread() bool { return s.isUnread() }

// IsSilent reports whether nothing says by what the figures are corrected.
func (s *Session) IsSilent() bool { return s.silent }

// isUnread reports whether the figures can't be compared for something that can't be read.
func (s *Session) isUnread() bool { return s.unread || s.IsReckoned() && s.air.unread }

// alike reports whether two standards give the same factor in every air.
func alike(a, b calc.Standard) bool { return a == b || byISO(a) && byISO(b) }

func byISO(s calc.Standard) bool {
	return s == calc.ISO1585 || s == calc.ISO4106 || s == calc.JISD1001
}

// told returns the sessions whose numbers are told at the moment: all of them now, those of an entry as it left the engine.
func (m *Moment) told() []*Session {
	var list []*Session
	if m.Entry != nil {
		for _, p := range m.Entry.Pulls {
			if s := m.sessions[p]; s != nil {
				list = append(list, s)
			}
		}
		return list
	}
	for _, e := range m.Journal.Entries {
		for _, p := range e.Pulls {
			if s := m.sessions[p]; s != nil && !e.Plan {
				list = append(list, s)
			}
		}
	}
	return list
}

// of says which session a number is about.
func (s *Session) of() string {
	title := s.Pulls.Entry.Title
	if s.Pulls.State == "before" {
		title += ", before its work"
	}
	return title
}

// correctionFactor works out what each session's figures are multiplied by to be compared; of those that carry the standard already, what they were multiplied by.
func correctionFactor(m *Moment) {
	for _, s := range m.told() {
		if s.To == calc.Uncorrected && s.Carried == calc.Uncorrected || s.Pulls.Air == nil && !s.IsReckoned() {
			continue
		}
		n := &Number{Path: CorrectionPath(s), Title: "correction factor " + s.By() + ", " + s.of(), Formula: "factor = α", Inputs: s.air.inputs, Unit: quantity.One()}
		n.Estimate.Dimension = quantity.Pure
		n.coarse = 1e-4 // a tenth of a kilopascal is a thousandth
		from, to := s.Carried, s.To
		switch {
		case s.unknown != "":
			n.Reason = s.unknown
		case !s.IsReckoned():
			from, n.Words = calc.Uncorrected, "which the figures carry already"
		case to == calc.Uncorrected:
			n.Formula = "factor = 1 / α_carried"
		case from != calc.Uncorrected:
			n.Formula = "factor = α / α_carried"
		}
		if n.Reason == "" {
			n.Reason = s.air.without(from, to)
		}
		if n.Reason == "" {
			n.carry(func(x []float64) (float64, error) { return s.air.factor(from, to, x) }, quantity.Pure)
		}
		m.add(n)
	}
}

// correctedPower works out the peaks of each session as they are compared, where any session has to be reckoned to another air for that.
func correctedPower(m *Moment) {
	for _, s := range m.told() {
		if !s.IsReckoned() && !(s.Named && s.unknown == "" && s.kinds.reckoned) {
			continue
		}
		formula := "P = α · P_read"
		if !s.IsReckoned() {
			formula = "P = P_read"
		}
		for _, peak := range []*model.Value{s.Pulls.Peak, s.Pulls.Torque} {
			if peak == nil {
				continue
			}
			path, title := "corrected.power.", "peak power"
			if peak.Quantity.Unit.Dimension == quantity.Torque {
				path, title = "corrected.torque.", "peak torque"
			}
			estimate, reason := s.Corrected(peak)
			m.add(&Number{Path: path + s.name, Title: title + " " + s.By() + ", " + s.of(), Formula: formula, Inputs: s.inputs("P_read", peak),
				Unit: m.powerUnit(peak), Estimate: estimate, Reason: reason, Words: s.place(reason)})
		}
	}
}

// place says where the figures of the session count, and that they don't stand beside those that count elsewhere; and where they carry what they are compared by already, that. Of what there is no figure of nothing is said.
func (s *Session) place(reason string) string {
	var words []string
	if reason != "" {
		return ""
	}
	if !s.IsReckoned() {
		words = append(words, "which it carries already")
	}
	if where := s.Pulls.Where; where != "" {
		words = append(words, "at the "+where)
		if s.kinds.wheel && s.kinds.crank {
			words = append(words, "and not to be compared with those at the "+map[string]string{"wheel": "crank", "crank": "wheel"}[where])
		}
	}
	return strings.Join(words, ", ")
}

// Outside returns what of the session's air lies outside the range of a standard that its figures carry or are put to, and of which; false for nothing, or where it can't be told.
func (s *Session) Outside() (o calc.Outside, of calc.Standard, is bool) {
	for _, standard := range []calc.Standard{s.Carried, s.To} {
		if standard == calc.Uncorrected || s.unknown != "" || s.air.without(calc.Uncorrected, standard) != "" {
			continue
		}
		at := make([]float64, len(s.air.inputs))
		for i, in := range s.air.inputs {
			at[i] = in.of().Value
		}
		dry, vapour, err := s.air.dry(at)
		if err != nil {
			continue
		}
		temperature := at[s.air.temp]
		factor, err := calc.PowerFactor(standard, dry, vapour, temperature)
		if err != nil {
			continue
		}
		if o, is = standard.Outside(factor, dry, temperature); is {
			return o, standard, true
		}
	}
	return calc.Outside{}, calc.Uncorrected, false
}

// Station returns the air pressure at the place, in Pa; false where it isn't told.
func (s *Session) Station() (pressure float64, ok bool) {
	if s.air.station == nil || s.air.unread {
		return 0, false
	}
	at := make([]float64, len(s.air.inputs))
	for i, in := range s.air.inputs {
		at[i] = in.of().Value
	}
	pressure, err := s.air.station(at)
	return pressure, err == nil
}

// CorrectionPath is where the correction factor of a session stands.
func CorrectionPath(s *Session) string { return "correction." + s.name }

// Session returns a session that measured power; nil for another.
func (s *Sums) Session(p *model.Pulls) *Session { return s.sessions[p] }

// SessionOf returns the session that a peak is of; nil where it is of none.
func (s *Sums) SessionOf(peak *model.Value) *Session { return sessionOf(s.sessions, peak) }

func (m *Moment) sessionOf(peak *model.Value) *Session { return sessionOf(m.sessions, peak) }

func sessionOf(sessions map[*model.Pulls]*Session, peak *model.Value) *Session {
	if peak == nil || peak.Origin != model.FromPulls || peak.Entry == nil {
		return nil
	}
	for _, p := range peak.Entry.Pulls {
		if p.Peak == peak || p.Torque == peak {
			return sessions[p]
		}
	}
	return nil
}

// By says by which standard the figures are compared.
func (s *Session) By() string {
	if s.To == calc.Uncorrected {
		return "without correction"
	}
	return "by " + s.To.String()
}

// inputs are a peak, and the air where it has to be reckoned.
func (s *Session) inputs(symbol string, peak *model.Value) []Input {
	inputs := []Input{{Symbol: symbol, Value: peak}}
	if s.IsReckoned() {
		inputs = append(inputs, s.air.inputs...)
	}
	return inputs
}

// curveInputs are the curves of the pulls, and the air where they have to be reckoned. The peak says where they are.
func (s *Session) curveInputs(symbol string, peak *model.Value) []Input {
	inputs := s.inputs(symbol, peak)
	inputs[0].Curves = s.Pulls
	return inputs
}

// Factor returns what the session's figures are multiplied by to be compared: 1 where they carry that already; false where it can't be had.
func (s *Session) Factor() (factor float64, ok bool) {
	switch {
	case s.unknown != "":
		return 0, false
	case !s.IsReckoned():
		return 1, true
	case s.air.without(s.Carried, s.To) != "":
		return 0, false
	}
	at := make([]float64, len(s.air.inputs))
	for i, in := range s.air.inputs {
		at[i] = in.of().Value
	}
	factor, err := s.air.factor(s.Carried, s.To, at)
	return factor, err == nil
}

// Corrected returns a figure of the session as it is compared, or the reason why it can't be.
func (s *Session) Corrected(figure *model.Value) (e quantity.Estimate, reason string) {
	return s.reckon(figure.Estimate)
}

// reckon is Corrected of an estimate.
func (s *Session) reckon(figure quantity.Estimate) (e quantity.Estimate, reason string) {
	e = quantity.Estimate{Dimension: figure.Dimension}
	switch {
	case s.unknown != "":
		return e, s.unknown
	case !s.IsReckoned():
		return figure, ""
	}
	if reason = s.air.without(s.Carried, s.To); reason != "" {
		return e, reason
	}
	of := []quantity.Estimate{figure}
	for _, in := range s.air.inputs {
		of = append(of, in.of())
	}
	corrected, err := carriedAt(func(x []float64) (float64, error) {
		factor, err := s.air.factor(s.Carried, s.To, x[1:])
		return factor * x[0], err
	}, e.Dimension, of)
	if err != nil {
		return e, err.Error()
	}
	if len(figure.Shares) == 0 {
		corrected.Shares = nil // what is known of the air says nothing of how far off the pulls may be
	}
	return corrected, ""
}
