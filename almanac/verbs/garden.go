package verbs

import (
	"encoding/json"
	"fmt"

	"haulm/almanac/assess"
	"haulm/garden"
)

// A Standing is an almanac that keeps a garden's records between questions, as
// the phone's worker does. It is not safe for use by several goroutines at once.
type Standing struct{ engine *assess.Engine }

// NewStanding gives a Standing with the catalogue and no records.
func NewStanding() (*Standing, error) {
	engine, err := assess.New()
	return &Standing{engine}, err
}

// Upsert takes in a JSON array of {"record", "fields"} and gives
// {"skipped": […]}, all records that cannot be used so far.
func (s *Standing) Upsert(text []byte) ([]byte, error) {
	records, unreadable, err := assess.ParseRecords(text)
	if err != nil {
		return nil, fmt.Errorf("records cannot be read: %w", err)
	}
	s.engine.Upsert(records)
	return write(struct {
		Skipped []assess.Skipped `json:"skipped"`
	}{append(s.engine.Skipped(), unreadable...)})
}

// Forget lets go of the records that a JSON array of references names.
func (s *Standing) Forget(text []byte) ([]byte, error) {
	var refs []garden.Ref
	if err := json.Unmarshal(text, &refs); err != nil {
		return nil, fmt.Errorf("references cannot be read: %w", err)
	}
	s.engine.Forget(refs)
	return []byte("{}\n"), nil
}

// Ask answers a verb; "assess", "worth" and "picture" are answered from the records
// that are kept, and need none in the question.
func (s *Standing) Ask(verb string, in []byte) ([]byte, error) {
	switch verb {
	case "assess", "worth":
		var question struct {
			On garden.Day `json:"on"`
		}
		if err := read(in, &question); err != nil {
			return nil, fmt.Errorf("%s: %w", verb, err)
		}
		if verb == "worth" {
			return write(s.engine.Worth(question.On))
		}
		return write(s.engine.Assess(question.On))
	case "picture":
		var question struct {
			On       garden.Day `json:"on"`
			Planting string     `json:"planting"`
		}
		if err := read(in, &question); err != nil {
			return nil, fmt.Errorf("picture: %w", err)
		}
		picture, err := s.engine.Picture(question.Planting, question.On)
		if err != nil {
			return nil, fmt.Errorf("picture: %w", err)
		}
		return write(picture)
	}
	return Run(verb, in)
}

type assessQuestion struct {
	On      garden.Day      `json:"on"`
	Records json.RawMessage `json:"records"`
}

type pictureQuestion struct {
	assessQuestion
	Planting string `json:"planting"`
}

func assessGarden(q assessQuestion) (assess.Assessment, error) {
	engine, unreadable, err := engineOf(q.Records)
	if err != nil {
		return assess.Assessment{}, err
	}
	answer := engine.Assess(q.On)
	answer.Skipped = append(answer.Skipped, unreadable...)
	return answer, nil
}

func worthOf(q assessQuestion) (assess.Worth, error) {
	engine, _, err := engineOf(q.Records)
	if err != nil {
		return assess.Worth{}, err
	}
	return engine.Worth(q.On), nil
}

func pictureOf(q pictureQuestion) (assess.Picture, error) {
	engine, _, err := engineOf(q.Records)
	if err != nil {
		return assess.Picture{}, err
	}
	return engine.Picture(q.Planting, q.On)
}

func engineOf(text json.RawMessage) (*assess.Engine, []assess.Skipped, error) {
	if text[0] != '[' {
		return nil, nil, fmt.Errorf("field \"records\" is %s where a list of records is wanted", shown(text))
	}
	engine, err := assess.New()
	if err != nil {
		return nil, nil, err
	}
	records, unreadable, err := assess.ParseRecords(text)
	if err != nil {
		return nil, nil, fmt.Errorf("field \"records\" is not a list of records: %w", err)
	}
	engine.Upsert(records)
	return engine, unreadable, nil
}
