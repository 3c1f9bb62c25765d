"""An existing installation by its recorded demand."""
from curtilage.calc.demand.results import MeteredLoad
from curtilage.values import lines as u
from curtilage.values.method import method


@method
def metered(m, S_new: u.VA, rating: u.A, volts: u.V, ed):
    """Recorded peak with its margin, plus what is new, against the rating of the feeder or service.

    `m.peak`: highest average over `m.interval`, in VA (kW needs the power factor of the record). Open with a year of data,
    or with at least 30 days of 15-minute averages taken while occupied and with `m.seasonal` added; the 30-day way is
    closed where there is generation or peak shaving on the premises. VA and A. Source: 220.87.
    """
    year: u.flag = m.period >= ed.metered_year
    month: u.flag = m.period >= ed.metered_month and m.interval <= ed.metered_interval and not m.own_sources
    permitted: u.flag = year or month
    S_existing: u.VA = ed.metered_factor * (m.peak + m.seasonal)
    S: u.VA = S_existing + S_new
    I: u.A = S / volts
    S_left: u.VA = rating * volts - S
    fits: u.flag = I <= rating
    return MeteredLoad(S_existing, S, I, S_left, permitted, fits)
