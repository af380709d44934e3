package table

import "fmt"

// store tells how things are in the store.
func (k *Keeps) store() string {
	s, o := &k.Answer.Store, &k.Answer.Opening
	return fmt.Sprintf("%s and %s %%, its door open for %s, %s a day, the air back with a time constant of %s",
		Celsius(s.Temperature), trim(100*s.Humidity, 2), Duration(o.Duration), perDay(o.PerDay), Duration(o.TimeConstant))
}

// Lines are what the answer for one material holds, each with what it is.
func (k *Keeps) Lines() [][2]string {
	t := k.Answer
	r := &t.Rows[0]
	keeps := "for ever"
	if !r.Hours.Never {
		keeps = Duration(r.Hours.Seconds)
	}
	return [][2]string{
		{"Air", fmt.Sprintf("%s and %s %%", Celsius(t.Air.Temperature), trim(100*t.Air.Humidity(), 1))},
		{"Keeps", fmt.Sprintf("%s at the medians of what is in doubt; nine times in ten: %s", keeps, keepsReliably(r.Reliable))},
		{"For ever", fmt.Sprintf("it comes to %s %% there; in %s %% humidity at the store's temperature it stays within its limit for ever", narrowCell(r.Equilibrium), humidityCell(r.ForEver))},
		{"Store", k.store()},
		{"In the store", fmt.Sprintf("shut it comes to %s %%, with these openings to %s %%, at the medians", narrowCell(r.Store), narrowCell(r.InStore))},
		{"One opening", fmt.Sprintf("costs up to %s %% (%s to %s %%, eight times in ten)", cell2(r.Gain), cell2(r.GainLow), cell2(r.GainHigh))},
		{"Bears", fmt.Sprintf("openings a day: %s; or at these a time constant of: %s", openings(r.Bearable), returning(r.SlowestTimeConstant))},
		{"Survives", r.Survives.String()},
	}
}
