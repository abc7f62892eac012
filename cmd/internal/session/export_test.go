package session

import "evendrop/tdc/evidence"

// Asked is the readings that a question is about just now.
func (s *Session) Asked() []evidence.Reading {
	if s.question == nil {
		return nil
	}
	return s.question.about
}
