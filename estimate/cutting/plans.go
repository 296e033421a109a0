package cutting

import (
	"fmt"
	"sync"

	"laybill/estimate/trim"
)

// Plans are the cutting plans made so far, by what they were asked for. Pools
// that ask for the same cuts of the same stock share one. It is ready to use
// when empty, also by several goroutines: the plan of an order is always the
// same, whoever makes it.
type Plans struct {
	lock sync.Mutex
	made map[string]trim.Plan
}

// of is the plan of a pool. A length that no stock gives has been sorted out
// before, so a fault of the order is one of the program.
func (s *Plans) of(p *Pool) trim.Plan {
	order := p.Order()
	key := fmt.Sprint(order)
	if plan, known := s.find(key); known {
		return plan
	}
	plan, faults := trim.Solve(order)
	if len(faults) > 0 {
		panic(fmt.Sprintf("cutting: %s of %s cannot be cut: %s", p.Product.Code, p.Place, faults[0].Reason))
	}
	s.keep(key, plan)
	return plan
}

func (s *Plans) find(key string) (trim.Plan, bool) {
	s.lock.Lock()
	defer s.lock.Unlock()
	plan, known := s.made[key]
	return plan, known
}

func (s *Plans) keep(key string, plan trim.Plan) {
	s.lock.Lock()
	defer s.lock.Unlock()
	if s.made == nil {
		s.made = map[string]trim.Plan{}
	}
	s.made[key] = plan
}
