"""An existing installation by its recorded demand."""
from curtilage.calc.demand.results import MeteredLoad
from curtilage.values import lines as u
from curtilage.values.method import method


@method
def metered(record, S_new: u.VA, rating: u.A, volts: u.V, ed):
    """Recorded peak with its margin, plus what is new, against the rating of the feeder or service.

    `record.peak`: highest average over `record.interval`, in VA (kW needs the power factor of the record). Open with a
    year of data, or with at least 30 days of 15-minute averages taken while occupied and with `record.seasonal` added; the
    30-day way is closed where there is generation or peak shaving on the premises. VA and A. Source: 220.87.
    """
    year: u.flag = record.period >= ed.metered_year
    month: u.flag = record.period >= ed.metered_month and record.interval <= ed.metered_interval and not record.own_sources
    permitted: u.flag = year or month
    S_existing: u.VA = ed.metered_factor * (record.peak + record.seasonal)
    S_total: u.VA = S_existing + S_new
    I_total: u.A = S_total / volts
    S_left: u.VA = rating * volts - S_total
    fits: u.flag = I_total <= rating
    return MeteredLoad(S_existing, S_total, I_total, S_left, permitted, fits)
