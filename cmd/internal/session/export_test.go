package session

import "evendrop/tdc/evidence"

// Asked is the readings that a question is about just now.
func (s *Session) Asked() []evidence.Reading {
	if s.doubts.Question == nil {
		return nil
	}
	return s.doubts.Question.About
}
