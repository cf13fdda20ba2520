# What is said where work is handed out. The page's first module holds none of it.

crew-job = { $job ->
    [grub_out] Arrancar árboles
    [plant] Plantar
    [stub] Rebajar a tocón
    [laterals] Quitar laterales
    [tip] Despuntar, mantener la altura
    [cut_back] Rebajar
    [take_off] Quitar brotes
    [wires] Alambres
    [buds] Desyemar, dejar yemas
    [notch] Entallar
   *[tie] Tumbar y amarrar
}
crew-job-diseased = { $job } – árboles enfermos, al final
crew-tool = { $job ->
    [grub_out] serrucho, pala
    [plant] pala, cinta, escuadra de ángulo
    [stub] serrucho de poda, una vara del largo del tocón
    [laterals] tijeras
    [tip] tijeras
    [cut_back] tijeras
    [take_off] serrucho, tijeras
    [wires] tensor, alicate
    [buds] manos
    [notch] cuchillo
   *[tie] amarras, fundas
}

caution-glasses = Usar lentes: al agacharse, la cara da con los tocones.
caution-spray = Entrar solo después del plazo de reingreso de la última aplicación.
caution-dry = Podar con tiempo seco, dos días secos al menos, y desinfectar las herramientas.
caution-canker = Bajo un cáncer bacteriano visible cortar al menos a { $below }; si está más cerca, marcar con cinta, dejarlo, avisar.
caution-trunk = Cerca del tronco dejar tocón, no cortar al ras.
caution-saw = Serrucho: la mano libre y todos los demás fuera de su paso.
caution-shears = Tijeras de motor: guante anticorte en la mano libre, nadie al alcance.
caution-ladder = Escaleras y serruchos de pértiga: tres puntos de apoyo, no pasar del tercer peldaño contado desde arriba, nadie debajo, cuidado con los cables eléctricos.
caution-loosen = Soltar las amarras a fines de verano, antes de que ahorquen.
caution-diseased = Los árboles enfermos van al final. Desinfectar las herramientas después de cada árbol, y llevarse lo cortado.

refusal-rate = { $name } = { $value }: un rendimiento debe estar entre { $low } y { $high } segundos, y ser uno de { $names }
