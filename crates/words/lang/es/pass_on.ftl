# Una hilera que se pasa como enlace, y por qué no se puede abrir uno.

refusal-link-none = Esto no es un enlace a una hilera: tras el # debe decir { $accepted } y lo que sigue
refusal-link-form = El enlace es de forma { $value } y pide un programa más nuevo; este lee la forma 1
refusal-link-cut = El enlace llegó cortado: le falta el final. Copiarlo otra vez, entero
refusal-link-damaged = El enlace está dañado: no es como se hizo. Pedir que lo manden otra vez
refusal-link-long = Un enlace debe tener { $high } caracteres como mucho, no { $value }: pasar el plan como archivo
refusal-link-size = Un enlace debe contener { $high } bytes como mucho, no { $value }: pasar el plan como archivo
