// Built by page/build.mjs from sources b0029b7156e03ce0: change those, and run `make page`.
"use strict";(()=>{var gs=(()=>{let t=new Uint32Array(256);for(let e=0;e<256;e++){let n=e;for(let o=0;o<8;o++)n=n&1?3988292384^n>>>1:n>>>1;t[e]=n}return t})();function Jt(t){let e=4294967295;
for(let n=0;n<t.length;n++)e=gs[(e^t.charCodeAt(n))&255]^e>>>8;return(e^4294967295)>>>0}async function Me(t){let e=Uint8Array.from(atob(t),o=>o.charCodeAt(0)),n=new Blob(
[e]).stream().pipeThrough(new DecompressionStream("deflate"));return new Uint8Array(await new Response(n).arrayBuffer())}function Ee(t,e){let n=t.length/e,o=new Int32Array(
n);for(let r=0;r<n;r++){let s=0;for(let i=e-1;i>=0;i--)s=s*256+t[i*n+r];o[r]=s&1?-(s+1)/2:s/2}return o}function xs(t,e,n,o,r,s,i){let[c,a,f]=[t[0],t[1]-t[0],t[2]-
2*t[1]+t[0]];for(let l=0;l<o;l++)s[i+3*l]=c*r,c+=a,a+=f,l<o-3&&(f+=e[n+l])}async function Qt(t,e){let{strands:n,columns:o,count:r,first:s,quantum:i}=t,c=Ee(await Me(
e),t.planes),a=new Float64Array(n*o*3),f=0;for(let l=0;l<n;l++){for(let u=0;u<3;u++)xs(s[3*l+u],c,f,r[l],i,a,3*l*o+u),f+=r[l]-3;bs(a,l*o,r[l],o)}return{...t,points:a,
station:ys(t),packing:ps(t)}}function bs(t,e,n,o){let r=3*(e+n-1);for(let s=n;s<o;s++)t.copyWithin(3*(e+s),r,r+3)}function ys({columns:t,station:e}){return Float64Array.
from({length:t},(n,o)=>e[0]+o*e[1])}function ps({columns:t,packing:e}){let n=new Float64Array(t);for(let o=0;o<e.length-1;o++){let[[r,s],[i,c]]=[e[o],e[o+1]];for(let a=r;a<=
i;a++)n[a]=s+(c-s)*(a-r)/Math.max(i-r,1)}return n}async function Fn(t,e,n){let[o,r]=[await Me(e),await Me(n)],s=Ee(o,t.pointPlanes),i=new Float32Array(s.length);
for(let a=0;a<s.length;a++)s[a]+=a>=3?s[a-3]:0,i[a]=s[a]*t.quantum;let c=Uint32Array.from(vs(Ee(r,t.facePlanes)));return{points:i,faces:c}}function vs(t){for(let e=1;e<
t.length;e++)t[e]+=t[e-1];return t}function ks({crown:t,nose:e,reach:n,groove:o,lip:r,halfWidth:s,centre:i},c,a,f){let l=Ms(t,e,n,c-i[0],a-i[1]),u=Math.abs(f-i[2]),[d,m]=[l-r,u-s],h=Math.hypot(Math.
max(d,0),Math.max(m,0))+Math.min(Math.max(d,m),0);return o>0?Math.max(h,o-Math.hypot(l-o,u)):h}function Ms(t,e,n,o,r){if(n<=0)return Math.hypot(o,r)-t;let s=(t-
e)/n,i=s/Math.sqrt(1-s*s),c=Math.min(Math.max(-o-Math.abs(r)*i,0),n);return Math.hypot(o+c,r)-(t-c*s)}function Es([t,e,n,o,r,s,i,c,a,f],l,u,d){let m=-((l-t)*o+(u-
e)*r+(d-n)*s),h=Math.hypot(l-t+m*o,u-e+m*r,d-n+m*s);return m<0||m>f?Math.max(h,i):h-Math.min(i,c+(i-c)*m/a)}function Tn({seat:t,rods:e},n,o,r){let s=t?ks(t,n,o,
r):1/0;for(let i of e)s=Math.min(s,Es(i,n,o,r));return s}function Rn(t,e,n,o){if(!t.seat&&t.rods.length===0)return;let r=o.reduce((s,i)=>Math.max(s,i),0);for(let s=0;s<
e.strands;s++)for(let i=0;i<e.count[s];i++){let c=3*(s*e.n+i),[a,f,l]=[e.centres[c],e.centres[c+1],e.centres[c+2]];Tn(t,a,f,l)<r&&As(t,e.centres,n,s*e.n+i,o)}}function As(t,e,{
across:n,flat:o,free:r,rays:s},i,c){let a=3*i;for(let f=0;f<s;f++){let[l,u]=[r.cos[f],r.sin[f]],[d,m,h]=[0,1,2].map(M=>l*n[a+M]+u*o[a+M]),[b,y,p]=e.subarray(a,a+
3),x=M=>Tn(t,b+M*d,y+M*m,p+M*h),v=c[i*s+f];v>0&&x(v)<0&&(c[i*s+f]=Os(x,v))}}function Os(t,e){let[n,o]=[0,e];for(let r=0;r<14;r++){let s=(n+o)/2;[n,o]=t(s)>=0?[s,
o]:[n,s]}return n}var In=.6,Ae=8;function Ln(t,e,n,o,r,s,[i,c]){let{strands:a,n:f,count:l,thickness:u,station:d}=t,m=r.cos.length,h=u.map(S=>S*S/4),b=h.reduce((S,F)=>Math.max(S,F),
0),y=u.reduce((S,F)=>Math.max(S,F),0),p=Math.ceil(s.selfReach*y/Cs(t)),x={found:new Float64Array(3*4096),number:0},v={...t,...Ns(t,h,2*r.widest),weight:h,slack:p,
near:x},[M,O]=[new Float32Array(a*f*m),new Float64Array(m)];for(let S=0;S<a;S++)for(let F=0;F<l[S];F++){if(d[F]<i||d[F]>c)continue;let z=Ss(r.longest,F*m,m),C=s.
beyond*(z+Math.sqrt(z*z+b-h[F]));Is(v,S,F,C),Rs(t,e,S,F,x),Ts(x,n,o,3*(S*f+F),r,In/z,O);for(let U=0;U<m;U++)M[(S*f+F)*m+U]=Fs(r.longest[F*m+U],O[U],s.rounding)}
return M}function Ss(t,e,n){let o=0;for(let r=e;r<e+n;r++)t[r]>o&&(o=t[r]);return o}function Fs(t,e,n){let o=t*e;return o<In?t:t/(1+o**n)**(1/n)}function Ts(t,e,n,o,r,s,i){
let{found:c,number:a}=t,{cos:f,sin:l}=r,u=f.length/2,d=e[o],m=e[o+1],h=e[o+2],b=n[o],y=n[o+1],p=n[o+2];i.fill(0);for(let x=0;x<3*a;x+=3){let v=c[x]*d+c[x+1]*m+c[x+
2]*h,M=c[x]*b+c[x+1]*y+c[x+2]*p;if(!(v*v+M*M<s*s))for(let O=0;O<u;O++){let S=f[O]*v+l[O]*M;S>i[O]?i[O]=S:-S>i[O+u]&&(i[O+u]=-S)}}}function Rs({n:t,centres:e,count:n},o,r,s,i){
let c=3*(r*t+s);for(let a=s-1;a<=s+1;a+=2){if(a<0||a>=n[r])continue;let f=3*(r*t+a),l=o[c]+o[f],u=o[c+1]+o[f+1],d=o[c+2]+o[f+2],m=e[f]-e[c],h=(l*m+u*(e[f+1]-e[c+
1])+d*(e[f+2]-e[c+2]))/2;Cn(i,l/h,u/h,d/h)}}function Cn(t,e,n,o){let r=3*t.number;t.found[r]=e,t.found[r+1]=n,t.found[r+2]=o,t.number+=1}function Is(t,e,n,o){let{
n:r,centres:s,low:i,cell:c,shape:a,starts:f,near:l}=t,u=3*(e*r+n),d=Math.trunc((s[u]-i[0])/c),m=Math.trunc((s[u+1]-i[1])/c),h=Math.trunc((s[u+2]-i[2])/c),b=Math.
max(h-1,0),y=Math.min(h+2,a[2]);l.number=0;for(let p=Math.max(d-1,0);p<Math.min(d+2,a[0]);p++)for(let x=Math.max(m-1,0);x<Math.min(m+2,a[1]);x++){let v=(p*a[1]+
x)*a[2];Ls(t,f[v+b],f[v+y],e,n,o)}}function Ls(t,e,n,o,r,s){let{n:i,centres:c,weight:a,slack:f,near:l,segments:u,order:d,count:m}=t,h=c[3*(o*i+r)],b=c[3*(o*i+r)+
1],y=c[3*(o*i+r)+2];for(let p=e;p<n;p++){let x=Ae*p,v=u[x]-h,M=u[x+1]-b,O=u[x+2]-y,S=u[x+6],F=s+Math.sqrt(S);if(v*v+M*M+O*O>F*F)continue;let z=Math.floor(d[p]/i),
C=d[p]-z*i;if(z===o&&Math.abs(C-r)<f)continue;let U=a[r]-u[x+7],ht=u[x+3],wt=u[x+4],qt=u[x+5],Pt=-(v*ht+M*wt+O*qt)/Math.max(S,1e-12);Zt(v,M,O,U,s,l),Zt(v+ht/2,M+
wt/2,O+qt/2,U,s,l),Pt>=0&&Pt<=1&&Zt(v+Pt*ht,M+Pt*wt,O+Pt*qt,U,s,l),(C+2>=m[z]||z===o&&Math.abs(C+1-r)<f)&&Zt(v+ht,M+wt,O+qt,U,s,l)}}function Zt(t,e,n,o,r,s){let i=t*
t+e*e+n*n;if(i>=r*r||s.number>=4090)return;let c=2/Math.max(i+o,.1*i,1e-9);Cn(s,t*c,e*c,n*c)}function Cs({strands:t,n:e,centres:n,count:o}){let r=new Float64Array(
o.reduce((i,c)=>i+c-1,0)),s=0;for(let i=0;i<t;i++)for(let c=i*e;c<i*e+o[i]-1;c++)r[s++]=gt(n,3*c,n,3*c+3);return te(r)}function Ns(t,e,n){let{middles:o,names:r}=$s(
t),[s,i]=_s(o),c=[0,1,2].reduce((m,h)=>m*(i[h]-s[h]+n),1),a=Math.max(n*1.15,Math.cbrt(c/4e6)),f=[0,1,2].map(m=>Math.trunc((i[m]-s[m])/a)+1),l=new Int32Array(r.length);
for(let m=0;m<r.length;m++){let h=Math.trunc((o[3*m]-s[0])/a),b=Math.trunc((o[3*m+1]-s[1])/a);l[m]=(h*f[1]+b)*f[2]+Math.trunc((o[3*m+2]-s[2])/a)}let{starts:u,order:d}=Bs(
l,r,f[0]*f[1]*f[2]);return{low:s,cell:a,shape:f,starts:u,order:d,segments:Ps(t,e,d)}}function Ps({n:t,centres:e},n,o){let r=new Float64Array(Ae*o.length);for(let s=0;s<
o.length;s++){let[i,c]=[3*o[s],Ae*s];for(let a=0;a<3;a++)r[c+a]=e[i+a],r[c+3+a]=e[i+3+a]-e[i+a],r[c+6]+=r[c+3+a]**2;r[c+7]=n[o[s]%t]}return r}function $s({strands:t,
n:e,centres:n,count:o}){let r=o.reduce((a,f)=>a+f-1,0),[s,i]=[new Float64Array(3*r),new Int32Array(r)],c=0;for(let a=0;a<t;a++)for(let f=0;f<o[a]-1;f++,c++){let l=3*
(a*e+f);for(let u=0;u<3;u++)s[3*c+u]=(n[l+u]+n[l+3+u])/2;i[c]=a*e+f}return{middles:s,names:i}}function _s(t){let e=[1/0,1/0,1/0],n=[-1/0,-1/0,-1/0];for(let o=0,
r=0;o<t.length;o++,r=r<2?r+1:0)t[o]<e[r]&&(e[r]=t[o]),t[o]>n[r]&&(n[r]=t[o]);return[e,n]}function Bs(t,e,n){let o=new Int32Array(n+1);for(let i=0;i<t.length;i++)
o[t[i]+1]+=1;for(let i=0;i<n;i++)o[i+1]+=o[i];let[r,s]=[o.slice(0,n),new Int32Array(e.length)];for(let i=0;i<e.length;i++)s[r[t[i]]++]=e[i];return{starts:o,order:s}}var Nn=1.5;function $t(t,e,n,o,r){let s=n||zs(t,o),i=Us(t,s),c=Gs(i),{axis:a,radius:f}=Bn(i),l=Vs(i,c,a,o.turn*t.thickness),u=t.plain||te(f.slice(0,Dn(f.length))),
d=js(f,u,i.station,t.diameter,o.spread),m=Ks(i,d,e,o),h=Xs(l,c),b=Ln(i,c,h,l,m,o,r||[-1/0,1/0]),y=qs(b,i,e);for(let p=0;p<y.length;p++)y[p]*=o.inset;return Rn(t,
i,{across:h,flat:l,free:m,rays:e},y),{...i,tangents:c,axis:a,rays:e,rings:Js(i,h,l,m,y,e)}}function $n(t,[e,n],o){let{columns:r,station:s,count:i,points:c,packing:a,
diameter:f}=t,l=_n(t),u=y=>Math.min(Math.max(Math.round((y-s[0])/l),0),r-1),d=u(e-Nn*f),m=Math.floor((u(n+Nn*f)-d)/o)+1,h=new Float64Array(3*t.strands*m);for(let y=0;y<
t.strands;y++)for(let p=0;p<m;p++){let x=3*(y*r+d+p*o);h.set(c.subarray(x,x+3),3*(y*m+p))}let b=y=>Float64Array.from({length:m},(p,x)=>y[d+x*o]);return{...t,columns:m,
points:h,station:b(s),packing:b(a),plain:Ds(t),count:i.map(y=>Math.min(Math.max(Math.floor((y-1-d)/o)+1,1),m))}}function Ds({strands:t,columns:e,points:n}){let o=Dn(
e),r=new Float64Array(3*t*o);for(let i=0;i<t;i++)r.set(n.subarray(3*i*e,3*(i*e+o)),3*i*o);let s=new Int32Array(t).fill(o);return te(Bn({strands:t,n:o,centres:r,
count:s}).radius)}function zs(t,e){return Math.max(1,Math.ceil(t.station.length>1?_n(t)/(e.spacing*t.thickness):1))}function _n({station:t}){return t[1]-t[0]}function Us(t,e){
let{columns:n,count:o,points:r,station:s,packing:i,thickness:c}=t,a=(n-1)*e+1,f=new Float64Array(t.strands*a*3);for(let m=0;m<t.strands;m++)Hs(r,m*n,o[m],e,f,m*
a,a);let[l,u]=[new Float64Array(a),new Float64Array(a)];for(let m=0;m<a;m++){let[h,b]=[Math.min(Math.floor(m/e),n-2),m/e];l[m]=s[h]+(s[h+1]-s[h])*(b-h),u[m]=c*(i[h]+
(i[h+1]-i[h])*(b-h))}let d=Int32Array.from(o,m=>(m-1)*e+1);return{strands:t.strands,n:a,centres:f,station:l,thickness:u,count:d,refine:e}}function Hs(t,e,n,o,r,s,i){
let c=(a,f)=>a<0?2*t[3*e+f]-t[3*(e+1)+f]:a<n?t[3*(e+a)+f]:2*t[3*(e+n-1)+f]-t[3*(e+n-2)+f];for(let a=0;a<3;a++){for(let l=0;l<n-1;l++){let[u,d,m,h]=[c(l-1,a),c(l,
a),c(l+1,a),c(l+2,a)];for(let b=0;b<o;b++)r[3*(s+l*o+b)+a]=b?Ws(u,d,m,h,b/o):d}let f=t[3*(e+n-1)+a];for(let l=(n-1)*o;l<i;l++)r[3*(s+l)+a]=f}}function Ws(t,e,n,o,r){
let[s,i]=[r*r,r*r*r];return((-r+2*s-i)*t+(2-5*s+3*i)*e+(r+4*s-3*i)*n+(i-s)*o)/2}function Gs({strands:t,n:e,centres:n,count:o}){let r=new Float64Array(t*e*3);for(let s=0;s<
t;s++)for(let i=0;i<o[s];i++){let c=3*(s*e+Math.max(i-1,0)),a=3*(s*e+Math.min(i+1,o[s]-1)),f=Math.max(gt(n,c,n,a),1e-12);for(let l=0;l<3;l++)r[3*(s*e+i)+l]=(n[a+
l]-n[c+l])/f}return r}function Bn({strands:t,n:e,centres:n,count:o}){let[r,s,i]=[new Float64Array(3*e),new Float64Array(e),new Float64Array(e)];for(let c=0;c<t;c++)
for(let a=0;a<o[c];a++){i[a]+=1;for(let f=0;f<3;f++)r[3*a+f]+=n[3*(c*e+a)+f]}for(let c=0;c<3*e;c++)r[c]/=Math.max(i[Math.floor(c/3)],1);for(let c=0;c<t;c++)for(let a=0;a<
o[c];a++)s[a]+=gt(n,3*(c*e+a),r,3*a);for(let c=0;c<e;c++)s[c]/=Math.max(i[c],1);return{axis:r,radius:s}}function gt(t,e,n,o){return Math.sqrt((t[e]-n[o])**2+(t[e+
1]-n[o+1])**2+(t[e+2]-n[o+2])**2)}var Dn=t=>Math.max(3,Math.floor(t/50));function js(t,e,n,o,r){let s=t.length,i=(n[s-1]-n[0])/Math.max(s-1,1),c=Math.min(Math.max(
Math.trunc(o/2/i),1),Math.floor((s-1)/2)),a=new Float64Array(s+2*c+1);for(let f=0;f<s+2*c;f++){let l=t[Math.min(Math.max(f-c,0),s-1)]/e;a[f+1]=a[f]+Math.min(Math.
max(l,1),r)}return Float64Array.from(t,(f,l)=>(a[l+2*c+1]-a[l])/(2*c+1))}function te(t){let e=Float64Array.from(t).sort(),n=e.length>>1;return e.length%2?e[n]:(e[n-
1]+e[n])/2}function Vs(t,e,n,o){let r=new Float64Array(t.centres.length);for(let s=0;s<t.strands;s++){Pn(t,e,n,o,s,1,r),Pn(t,e,n,o,s,-1,r);for(let i=0;i<t.count[s];i++)
Ys(r,e,3*(s*t.n+i))}return r}function Pn({n:t,centres:e,count:n},o,r,s,i,c,a){let f=n[i]-1,l=new Float64Array(3),u=new Float64Array(3);for(let d=0;d<=f;d++){let m=c===
1?d:f-d,h=3*(i*t+m),b=3*(i*t+Math.max(Math.min(m-c,f),0));for(let x=0;x<3;x++)u[x]=e[h+x]-r[3*m+x];Oe(u,o,h),Oe(l,o,h);let y=Math.min(gt(e,h,e,b)/s,1),p=(1-y)/Math.
max(Math.sqrt(Et(l,0,l,0)),1e-9);for(let x=0;x<3;x++)l[x]=l[x]*p+u[x]*y/s,a[h+x]+=l[x]}}function Oe(t,e,n){let o=Et(t,0,e,n);for(let r=0;r<3;r++)t[r]-=o*e[n+r]}
function Et(t,e,n,o){return t[e]*n[o]+t[e+1]*n[o+1]+t[e+2]*n[o+2]}function Ys(t,e,n){let o=t.subarray(n,n+3);if(Oe(o,e,n),Et(o,0,o,0)<1e-18){let[s,i,c]=e.subarray(
n,n+3);o.set(Math.abs(c)<.9?[-i,s,0]:[0,-c,i])}let r=Math.sqrt(Et(o,0,o,0));for(let s=0;s<3;s++)o[s]/=r}function Xs(t,e){let n=new Float64Array(t.length);for(let o=0;o<
t.length;o+=3)n[o]=t[o+1]*e[o+2]-t[o+2]*e[o+1],n[o+1]=t[o+2]*e[o]-t[o]*e[o+2],n[o+2]=t[o]*e[o+1]-t[o+1]*e[o];return n}function Ks(t,e,n,o){let[r,s]=[new Float64Array(
n),new Float64Array(n)];for(let a=0;a<n;a++){let f=2*Math.PI*a/n,l=Math.atan2(o.halfHeight*Math.sin(f),o.halfWidth*Math.cos(f));[r[a],s[a]]=[Math.cos(l),Math.sin(
l)]}let i=t.thickness.map((a,f)=>o.halfWidth*a*e[f]),c=new Float64Array(t.n*n);for(let a=0;a<t.n;a++){let f=o.halfHeight*t.thickness[a];for(let l=0;l<n;l++){let u=(Math.
abs(r[l])/i[a])**o.exponent+(Math.abs(s[l])/f)**o.exponent;c[a*n+l]=(1/u)**(1/o.exponent)}}return{cos:r,sin:s,longest:c,widest:i.reduce((a,f)=>Math.max(a,f),0)}}
function qs(t,{strands:e,n,count:o},r){let s=t.slice();for(let i=0;i<e;i++)for(let c=1;c<o[i]-1;c++){let a=(i*n+c)*r;for(let f=a;f<a+r;f++)s[f]=Math.min(t[f],(t[f-
r]+2*t[f]+t[f+r])/4)}return s}function Js({strands:t,n:e,centres:n,count:o},r,s,{cos:i,sin:c},a,f){let l=new Float32Array(t*e*f*3);for(let u=0;u<t;u++)for(let d=0;d<
o[u];d++){let m=3*(u*e+d);for(let h=0;h<f;h++){let b=(u*e+d)*f+h,[y,p]=[a[b]*i[h],a[b]*c[h]];for(let x=0;x<3;x++)l[3*b+x]=n[m+x]+y*r[m+x]+p*s[m+x]}}return l}var N=20;function Fe(t,e){let{n,rays:o,count:r,station:s}=e,i=t.strands*(n*o+2*(o+1)),c=Qs(i);for(let a=0;a<t.strands;a++)Zs(c,e,a);for(let a=0;a<t.strands;a++)
zn(c,e,a,0,-1);for(let a=0;a<t.strands;a++)zn(c,e,a,r[a]-1,1);return{vertices:c.buffer,strands:t.strands,n,rays:o,refine:e.refine,count:Int32Array.from(r),station:Float64Array.
from(s),axis:Float32Array.from(e.axis),radius:ti(e)}}function Qs(t){let e=new ArrayBuffer(t*N);return{buffer:e,floats:new Float32Array(e),bytes:new Int8Array(e),
at:0}}function Se(t,e,n,o,r,s,i,c,a){let f=t.at++,{floats:l,bytes:u}=t;l[5*f]=e,l[5*f+1]=n,l[5*f+2]=o,u[N*f+12]=Math.round(127*r),u[N*f+13]=Math.round(127*s),u[N*
f+14]=Math.round(127*i),u[N*f+15]=c,l[5*f+4]=a}function Zs(t,{n:e,rays:n,rings:o,count:r,station:s},i){let c=r[i]-1;for(let a=0;a<e;a++){let f=3*n*(i*e+Math.min(
a,c)),l=3*n*(i*e+Math.max(Math.min(a,c)-1,0)),u=3*n*(i*e+Math.min(a+1,c));for(let d=0;d<n;d++){let m=f+3*d,h=f+3*(d+1<n?d+1:0),b=f+3*(d>0?d-1:n-1),y=o[h]-o[b],p=o[h+
1]-o[b+1],x=o[h+2]-o[b+2],v=o[u+3*d]-o[l+3*d],M=o[u+3*d+1]-o[l+3*d+1],O=o[u+3*d+2]-o[l+3*d+2],S=p*O-x*M,F=x*v-y*O,z=y*M-p*v,C=Math.max(Math.sqrt(S*S+F*F+z*z),1e-12),
U=s[Math.min(a,c)];Se(t,o[m],o[m+1],o[m+2],S/C,F/C,z/C,i,U)}}}function zn(t,{n:e,rays:n,rings:o,centres:r,tangents:s,station:i},c,a,f){let l=3*(c*e+a),[u,d,m]=[
f*s[l],f*s[l+1],f*s[l+2]];for(let h=0;h<n;h++){let b=3*((c*e+a)*n+h);Se(t,o[b],o[b+1],o[b+2],u,d,m,c,i[a])}Se(t,r[l],r[l+1],r[l+2],u,d,m,c,i[a])}function ti({strands:t,
n:e,rays:n,rings:o,count:r,axis:s}){let i=new Float32Array(e);for(let c=0;c<t;c++)for(let a=0;a<r[c];a++)for(let f=0;f<n;f++)i[a]=Math.max(i[a],gt(o,3*((c*e+a)*
n+f),s,3*a));return i}function Un(t,e,n,o){let r=Math.floor(e/n),s=new Uint16Array(Math.floor((t-1)/o)*r*6),i=0;for(let c=0;c+o<t;c+=o)for(let a=0;a<r;a++){let[
f,l]=[c*e+a*n,c*e+(a+1)%r*n],u=o*e;s.set([f,l,l+u,f,l+u,f+u],i),i+=6}return s}function Hn(t,e,n){let o=[];for(let r=0;r<t;r++){let s=r*(e+1);for(let i=0;i<e;i++){
let[c,a]=[s+i,s+(i+1)%e];o.push(...n>0?[c,a]:[a,c],s+e)}}return Uint16Array.from(o)}function Wn({points:t,faces:e},n){let o=ni(t,e),{starts:r,order:s}=ei(t.length/
3,e),i=Math.cos(n),[c,a]=[new Float32Array(3*e.length),new Float32Array(3*e.length)];for(let f=0;f<e.length;f++){let[l,u,d]=[f-f%3,e[f],3*f],m=0;for(let h=r[u];h<
r[u+1];h++){let b=s[h]-s[h]%3;if(!(Et(o,l,o,b)<=i)){m+=1;for(let y=0;y<3;y++)c[d+y]+=o[b+y]}}for(let h=0;h<3;h++)c[d+h]/=m,a[d+h]=t[3*u+h]}return{points:a,normals:c}}
function ei(t,e){let n=new Int32Array(t+1);for(let s of e)n[s+1]+=1;for(let s=0;s<t;s++)n[s+1]+=n[s];let[o,r]=[n.slice(),new Int32Array(e.length)];for(let s=0;s<
e.length;s++)r[o[e[s]]++]=s;return{starts:n,order:r}}function ni(t,e){let n=new Float32Array(e.length);for(let o=0;o<e.length;o+=3){let[r,s,i]=[3*e[o],3*e[o+1],
3*e[o+2]],[c,a,f]=[t[s]-t[r],t[s+1]-t[r+1],t[s+2]-t[r+2]],[l,u,d]=[t[i]-t[r],t[i+1]-t[r+1],t[i+2]-t[r+2]],[m,h,b]=[a*d-f*u,f*l-c*d,c*u-a*l],y=Math.max(Math.sqrt(
m*m+h*h+b*b),1e-12);n[o]=m/y,n[o+1]=h/y,n[o+2]=b/y}return n}var Te={rays:8,refine:1,stride:2},oi={rays:12,refine:1},ri={rays:24,refine:0};async function Re({record:t,fine:e,law:n,only:o}){let r=await Qt(t,t.text);if(o){let c=$n(
r,o,Te.stride);return Fe(c,$t(c,Te.rays,Te.refine,n,o))}let{rays:s,refine:i}=e?ri:oi;return Fe(r,$t(r,s,i,n))}function Gn(t){t.onmessage=async({data:e})=>{try{let n=await Re(
e),o=Object.values(n).map(r=>r.buffer||r);t.postMessage({tubes:n},o.filter(r=>r instanceof ArrayBuffer))}catch(n){t.postMessage({problem:String(n)})}}}var A=(t,e)=>[t[0]+e[0],t[1]+e[1],t[2]+e[2]],P=(t,e)=>[t[0]-e[0],t[1]-e[1],t[2]-e[2]],k=(t,e)=>[t[0]*e,t[1]*e,t[2]*e],E=(t,e)=>t[0]*e[0]+t[1]*e[1]+t[2]*e[2],H=(t,e)=>[
t[1]*e[2]-t[2]*e[1],t[2]*e[0]-t[0]*e[2],t[0]*e[1]-t[1]*e[0]],st=t=>Math.hypot(t[0],t[1],t[2]),K=t=>k(t,1/Math.max(st(t),1e-12)),$=(t,e,n)=>Math.min(Math.max(t,e),
n);function _t(t,e,n){let[o,r]=[Math.cos(n),Math.sin(n)];return A(A(k(t,o),k(H(e,t),r)),k(e,E(e,t)*(1-o)))}var Bt=(t,e)=>_t(t,[0,0,1],e);var si=400,ii=.07;function it(t,e){let n=K(t),o=K(H(e,n));return{toward:n,right:o,up:H(n,o)}}function Ie(t,e,n,o,r){let s=[e.right,e.up,e.toward].map(l=>ci(t,l)),
i=[e.right,e.up,e.toward].reduce((l,u,d)=>A(l,k(u,(s[d][0]+s[d][1])/2)),[0,0,0]),c=1-2*ii,a=Math.max(s[0][1]-s[0][0],r),f=Math.min(n*c/a,o*c/Math.max(s[1][1]-s[1][0],
1e-6));return _({...e,centre:i,scale:f},n,o)}function ci(t,e){return t.reduce(([n,o],r)=>{let s=E(r,e);return[Math.min(n,s),Math.max(o,s)]},[1/0,-1/0])}function _(t,e,n){
return{...t,width:e,height:n,halfWidth:e/2/t.scale,halfHeight:n/2/t.scale}}function Le(t,e,n){let o=Math.min(t.width,t.height),[r,s]=[-Math.PI*e/o,-Math.PI*n/o],
i=f=>_t(_t(f,t.up,r),t.right,s),c=K(i(t.toward)),a=K(P(i(t.right),k(c,E(i(t.right),c))));return{...t,toward:c,right:a,up:H(c,a)}}function ai(t,e,[n,o]=[0,0]){let r=_t(
t.right,t.toward,e),s=H(t.toward,r),i=A(t.centre,A(k(t.right,n/t.scale),k(t.up,-o/t.scale))),c=A(i,A(k(r,-n/t.scale),k(s,o/t.scale)));return{...t,centre:c,right:r,
up:s}}function ee(t,e,n){let o=A(k(t.right,-e/t.scale),k(t.up,n/t.scale));return{...t,centre:A(t.centre,o)}}function Dt(t,e,[n,o]){let r=$(t.scale*e,.02,si),s=1/
t.scale-1/r,i=A(t.centre,A(k(t.right,n*s),k(t.up,-o*s)));return _({...t,centre:i,scale:r},t.width,t.height)}function jn(t,{factor:e,turn:n,shift:[o,r]},s){return ai(
ee(Dt(t,e,s),o,r),n,[s[0]+o,s[1]+r])}function Y(t,e){let n=P(e,t.centre),o=t.width/2+E(n,t.right)*t.scale,r=t.height/2-E(n,t.up)*t.scale;return[o,r,E(n,t.toward)]}
function ne(t,e,n){let o=k(t.right,(e-t.width/2)/t.scale),r=k(t.up,(t.height/2-n)/t.scale);return{from:A(t.centre,A(o,r)),along:k(t.toward,-1)}}var Vn={above:[[
0,0,1],[0,1,0]],below:[[0,0,-1],[0,1,0]],left:[[0,1,1e-4],[0,0,1]],right:[[0,-1,1e-4],[0,0,1]],captive:[[-1,0,1e-4],[0,0,1]],eye:[[1,0,1e-4],[0,0,1]],corner:[[.5,
-.8,.7],[0,0,1]]};function Ce(t,e,n){let o=t.createProgram();return Yn(t,o,t.VERTEX_SHADER,e),Yn(t,o,t.FRAGMENT_SHADER,n),t.linkProgram(o),{program:o,at:new Map}}function Yn(t,e,n,o){
let r=t.createShader(n);r&&(t.shaderSource(r,o),t.compileShader(r),t.attachShader(e,r))}function Ne(t,e){if(!t.getProgramParameter(e.program,t.LINK_STATUS)){let n=(t.
getAttachedShaders(e.program)||[]).map(o=>t.getShaderInfoLog(o));throw new Error(`the graphics card refuses the drawing program: ${t.getProgramInfoLog(e.program)}\
 ${n}`)}return e}function B(t,e,n){for(let[o,r]of Object.entries(n)){e.at.has(o)||e.at.set(o,t.getUniformLocation(e.program,o));let s=e.at.get(o);s&&r!==void 0&&
fi(t,s,r)}}function fi(t,e,n){typeof n=="number"?t.uniform1f(e,n):typeof n=="boolean"?t.uniform1i(e,n?1:0):"whole"in n?t.uniform1i(e,n.whole):"bits"in n?t.uniform1uiv(
e,n.bits):"list"in n?Xn(t,e,n.size,n.list):n.length===16?t.uniformMatrix4fv(e,!1,n):n.length===9?t.uniformMatrix3fv(e,!1,n):Xn(t,e,n.length,n)}function Xn(t,e,n,o){
n===1?t.uniform1fv(e,o):n===2?t.uniform2fv(e,o):n===3?t.uniform3fv(e,o):t.uniform4fv(e,o)}var q=t=>({whole:t}),xt=(...t)=>({bits:Uint32Array.from(t)}),nt=(t,e)=>({
size:t,list:Float32Array.from(e.flat())});function zt(t,e,n){let o=t.createBuffer();return t.bindBuffer(e,o),t.bufferData(e,n,t.STATIC_DRAW),o}function Kn(t,e,n,o,r,s){
let i=t.createTexture();t.bindTexture(t.TEXTURE_2D,i),t.texImage2D(t.TEXTURE_2D,0,e,r,s,0,n,o,null);for(let[c,a]of[[t.TEXTURE_MIN_FILTER,t.NEAREST],[t.TEXTURE_MAG_FILTER,
t.NEAREST],[t.TEXTURE_WRAP_S,t.CLAMP_TO_EDGE],[t.TEXTURE_WRAP_T,t.CLAMP_TO_EDGE]])t.texParameteri(t.TEXTURE_2D,c,a);return i}function qn(t,e,n,o){let r=t.createFramebuffer(),
s=Kn(t,t.RGBA8,t.RGBA,t.UNSIGNED_BYTE,e,n);t.bindFramebuffer(t.FRAMEBUFFER,r),t.framebufferTexture2D(t.FRAMEBUFFER,t.COLOR_ATTACHMENT0,t.TEXTURE_2D,s,0);let i=o&&
Kn(t,t.DEPTH_COMPONENT24,t.DEPTH_COMPONENT,t.UNSIGNED_INT,e,n);return o&&t.framebufferTexture2D(t.FRAMEBUFFER,t.DEPTH_ATTACHMENT,t.TEXTURE_2D,i,0),{frame:r,colour:s,
depth:i,width:e,height:n}}function Jn(t,e){t.deleteFramebuffer(e.frame),t.deleteTexture(e.colour),e.depth&&t.deleteTexture(e.depth)}var Pe=1024,Qn=32;function At(t,e){return{...e,buffer:zt(t,t.ARRAY_BUFFER,e.vertices),array:t.createVertexArray()}}function ct(t,e){t.deleteBuffer(e.buffer),t.deleteVertexArray(
e.array)}function eo(t,e){let n=t.n-1,o=t.station[1]-t.station[0],r=i=>$(Math.round((i-t.station[0])/o),0,n);return e.map(([i,c])=>[r(i),r(c)]).filter(([i,c])=>c>
i)}function li(t,e,n){let o=[];for(let[r,s]of n)for(let i=r;i<s;){let c=Math.min(i-i%Qn+Qn,s),a=o[o.length-1];ui(t,e,i,c)&&(a&&a[1]===i?a[1]=c:o.push([i,c])),i=
c}return o}function ui({axis:t,radius:e},n,o,r){for(let s=o;s<=r;s+=4){let i=P([t[3*s],t[3*s+1],t[3*s+2]],n.centre),c=e[s]*2.5,[a,f]=[Math.abs(E(i,n.right)),Math.
abs(E(i,n.up))];if(a<n.halfWidth+c&&f<n.halfHeight+c)return!0}return!1}function no(t,e,n){return t.rays<24?n&&e<6?2:1:n?e<6?4:e<60?2:1:e<10?2:1}function oo(t,e,{
runs:n,startEnd:o,farEnd:r},s,i){let{gl:c}=t;c.bindVertexArray(e.array),c.bindBuffer(c.ARRAY_BUFFER,e.buffer);for(let f of[0,1,2,3])c.enableVertexAttribArray(f);
for(let[f,l]of li(e,s,n))for(let u=0;u<e.strands;u++)di(t,e,u,f,Math.min(l,e.count[u]-1),i);let a=e.strands*e.n*e.rays;o&&to(t,e,a,-1),r&&to(t,e,a+e.strands*(e.
rays+1),1)}function di(t,e,n,o,r,s){for(let i=o;i<r;i+=Pe){let c=Math.min(i+Pe,r),a=c-(c-i)%s;Zn(t,e,n,i,a,s,s),Zn(t,e,n,a,c,s,1)}}function Zn(t,e,n,o,r,s,i){if(r<=
o)return;let{gl:c}=t;ro(c,(n*e.n+o)*e.rays),c.bindBuffer(c.ELEMENT_ARRAY_BUFFER,mi(t,e.rays,s,i)),c.drawElements(c.TRIANGLES,(r-o)/i*Math.floor(e.rays/s)*6,c.UNSIGNED_SHORT,
0)}function to(t,e,n,o){let{gl:r}=t,s=`caps ${e.strands} ${e.rays} ${o}`,i=()=>Hn(e.strands,e.rays,o);ro(r,n),r.bindBuffer(r.ELEMENT_ARRAY_BUFFER,so(t,s,i)),r.drawElements(
r.TRIANGLES,e.strands*e.rays*3,r.UNSIGNED_SHORT,0)}function ro(t,e){let n=e*N;t.vertexAttribPointer(0,3,t.FLOAT,!1,N,n),t.vertexAttribPointer(1,3,t.BYTE,!0,N,n+
12),t.vertexAttribIPointer(2,1,t.UNSIGNED_BYTE,N,n+15),t.vertexAttribPointer(3,1,t.FLOAT,!1,N,n+16)}function mi(t,e,n,o){return so(t,`${e} ${n} ${o}`,()=>Un(Pe+
1,e,n,o))}function so(t,e,n){let o=t.patterns.get(e)||zt(t.gl,t.gl.ELEMENT_ARRAY_BUFFER,n());return t.patterns.set(e,o),o}function w(t){let e=document.getElementById(t);if(!e)throw new Error(`the page has no ${t}`);return e}var T=t=>w(t),Ot=({target:t})=>t.value,oe=()=>document.activeElement||
document.body;function g(t,e={},...n){let o=document.createElement(t);for(let[r,s]of Object.entries(e))r==="text"?o.textContent=s:r.startsWith("on")?o.addEventListener(
r.slice(2),s):s===!0?o.setAttribute(r,""):s!==!1&&s!==null&&s!==void 0&&o.setAttribute(r,s);for(let r of n)r!==null&&o.append(r);return o}var at=t=>t instanceof
Error?t.message:String(t),hi="http://www.w3.org/2000/svg";function W(t,e={}){let n=document.createElementNS(hi,t);for(let[o,r]of Object.entries(e))n.setAttribute(
o,String(r));return n}function J(t,e){return g(t,{},...e.map(n=>g("li",{text:n})))}function io(t,e,n){let o=g("select",t,...e.map(([r,s])=>g("option",{value:r,text:s})));
return n!==void 0&&(o.value=n),o}function co(t,e){let n=e.id||`c-${Math.random().toString(36).slice(2,9)}`;return e.id=n,g("div",{class:"row"},g("label",{for:n,
text:t}),e)}var re=([t,e,n])=>`rgb(${t} ${e} ${n})`,bt=t=>t.map(e=>e/255);var wi=6e7,gi=48e6;function ao(t,e,n){return{painter:null,maker:xi(),changed:e,failed:n,data:t,kept:new Map,bodies:new Map,queue:[],making:null,refused:new Set,
unpacking:new Set,former:new Map}}function xi(){try{let t=new Blob([w("script").textContent],{type:"text/javascript"}),e=new Worker(URL.createObjectURL(t));return{
kind:"worker",make:n=>bi(e,n)}}catch(t){return{kind:"page",reason:String(t),make:Re}}}function bi(t,e){return new Promise((n,o)=>{t.onmessage=({data:r})=>r.problem?
o(new Error(r.problem)):n(r.tubes),t.onerror=r=>o(new Error(r.message||"the worker stopped")),t.postMessage(e)})}function Ut({painter:t}){if(!t)throw new Error(
"there is no graphics card");return t.gl}function fo(t,e,n){if(e===t.data)return;let o=Ut(t);for(let[r,{rope:s}]of t.kept){let[i,c]=r.split(" ");c!=="part"&&lo(
t.data,e,i)||(t.kept.delete(r),n.includes(i)&&e.states[i]&&!t.former.has(i)?t.former.set(i,s):ct(o,s))}t.bodies.clear(),t.refused.clear(),t.unpacking.clear(),t.
queue=[],t.data=e}function lo(t,e,n){let[o,r]=[t,e].map(({states:s,law:i})=>JSON.stringify([s[n],i]));return!!e.states[n]&&o===r}var $e=(t,e)=>e.data===t.data||
lo(e.data,t.data,e.kind),uo=(t,e)=>t.former.get(e)||null,se=(t,e)=>`${t} ${e}`,yi=(t,e)=>e?"part":t?"fine":"coarse";function L(t,e,n){let[o,r,s]=["fine","coarse",
"part"].map(c=>t.kept.get(se(e,c))),i=n&&o||r||o||s;return i?(i.used=performance.now(),i.rope):null}function ot(t,e,n,o,r){let s=se(e,yi(n,r));if(!t.data.states[e]||
t.kept.has(s)||t.refused.has(s)||t.making&&t.making.key===s&&$e(t,t.making))return;t.queue=t.queue.filter(c=>c.key!==s);let i={key:s,kind:e,fine:n,only:r,data:t.
data};o?t.queue.unshift(i):t.queue.push(i),mo(t)}async function mo(t){if(t.making)return;let e=t.queue.shift();if(e){t.making=e;try{let{law:n,states:o}=e.data,{
kind:r,fine:s,only:i}=e,c=await t.maker.make({record:o[r],fine:s,law:n,only:i});t.making=null,$e(t,e)&&vi(t,e,c)}catch(n){t.making=null,$e(t,e)&&pi(t,e,n)}mo(t)}}
function pi(t,{key:e,kind:n},o){t.refused.add(e),t.changed(n),t.failed(`This step can't be drawn: ${at(o)}`)}function vi(t,{key:e,kind:n,fine:o},r){let s=At(Ut(
t),r);t.kept.set(e,{rope:s,fine:o,bytes:r.vertices.byteLength,used:performance.now()});let i=t.former.get(n);i&&ct(Ut(t),i),t.former.delete(n),ki(t,o,e),t.changed(
n)}function ki(t,e,n){let o=[...t.kept].filter(([,s])=>s.fine===e).sort((s,i)=>s[1].used-i[1].used),r=o.reduce((s,[,i])=>s+i.bytes,0);for(let[s,i]of o)r<=(e?gi:
wi)||s===n||(ct(Ut(t),i.rope),t.kept.delete(s),r-=i.bytes)}function _e(t,e){return e?(t.bodies.has(e)||(t.bodies.set(e,[]),t.unpacking.add(e),Mi(t,e).then(n=>{t.
unpacking.delete(e),t.bodies.set(e,n),t.changed(null)},n=>{t.unpacking.delete(e),t.changed(null),t.failed(`The tools can't be drawn: ${at(n)}`)})),t.bodies.get(
e)||[]):[]}async function Mi(t,e){let n=await Fn(e,e.points,e.faces),o=0;return e.parts.map(r=>{let s=n.faces.subarray(3*o,3*(o+r.faces));o+=r.faces;let i=Wn({points:n.
points,faces:s},Ei);return{...r,shape:i,onCard:Be(Ut(t),i)}})}var Ei=25*Math.PI/180;function Ai(t,{width:e,height:n}){if(t.pictures.length===1)return[[0,0,e,n]];n-=t.strip;let[o,r]=[Math.floor(e/2),Math.floor(n/2)],s=[[0,0,o,n],[o,0,e-o,n]],i=[
[0,0,e,r],[0,r,e,n-r]],c=a=>Math.min(...a.map((f,l)=>wo(t,l,f)));return c(s)>=c(i)?s:i}var Oi=520,Si=.4;function Fi({corner:t,pictures:e},{width:n,height:o}){return n>=
Oi&&e.length===1||t.offsetTop>=o?0:Math.min(t.offsetHeight+8,Si*o)}function ho({data:t,pictures:e,view:n,strip:o},r,[,,s,i]){let c=e.length===1?o:0;return go(e[r],
n,s,i,t.diameter,c)}function wo(t,e,n){return t.pictures[e].views?ho(t,e,n).scale:1/0}function De(t,e){let n=t.getBoundingClientRect(),o=Math.min(window.devicePixelRatio||
1,e),[r,s]=[n.width,n.height].map(a=>Math.max(Math.round(a),2)),[i,c]=[Math.round(r*o),Math.round(s*o)];return t.width!==i&&(t.width=i),t.height!==c&&(t.height=
c),{width:r,height:s,ratio:o}}function ft(t){t.size=De(t.canvas,t.slow?2:3),t.strip=Fi(t,t.size),t.boxes=Ai(t,t.size);let e=t.boxes.map((n,o)=>wo(t,o,n));t.pictures.
forEach((n,o)=>Ti(t,o,Math.min(...e))),Ri(t)}function Ti(t,e,n){let[,,o,r]=t.boxes[e],s=t.pictures[e];if(!s.views)return;let i=t.cameras[e],c=i&&i.picture===s&&
i.moved,a=c?i:{...ho(t,e,t.boxes[e]),scale:n};t.cameras[e]={..._(a,o,r),picture:s,moved:c}}function Ri(t){let e=["as it should be","wrong"],n=([o,r],s)=>{let i=g(
"p",{class:s?"side bad":"side good",text:e[s]});return i.style.left=`${o}px`,i.style.top=`${r}px`,i};w("sides").replaceChildren(...t.boxes.length===2?[Ii(t),...t.
boxes.map(n)]:[])}function Ii({boxes:[,[t,e,n,o]]}){let r=g("i",{class:"divide"}),[s,i]=t>0?[1,o]:[n,1],c={left:t,top:e,width:s,height:i};for(let[a,f]of Object.
entries(c))r.style.setProperty(a,`${f}px`);return r}function xo(t,{from:e,along:n},o,r,s){let i=new Float32Array(t.vertices),c={place:[0,0,0],station:0,depth:0,off:1/0};for(let[a,f]of o)for(let l=a;l<Math.min(f,t.
count[r]-1);l++)Li(t,l,e,n)&&Ci(t,i,r,l,{from:e,along:n,depth:s},c);return c.off<1/0?c:null}function Li({axis:t,radius:e},n,o,r){let s=P([t[3*n],t[3*n+1],t[3*n+
2]],o);return st(P(s,k(r,E(s,r))))<2.5*e[n]}function Ci({n:t,rays:e},n,o,r,s,i){let c=(o*t+r)*e;for(let a=0;a<e;a++){let f=(a+1)%e,l=[c+a,c+f,c+e+f,c+e+a];for(let[
u,d,m]of[[0,1,2],[0,2,3]])Ni(n,[l[u],l[d],l[m]],s,i)}}function Ni(t,e,{from:n,along:o,depth:r},s){let i=m=>[t[5*m],t[5*m+1],t[5*m+2]],c=Pi(i(e[0]),i(e[1]),i(e[2]),
n,o);if(!c)return;let a=Math.abs(c.depth-r);if(a>=s.off)return;let[f,l,u]=e.map(m=>t[5*m+4]),d=f*(1-c.b-c.c)+l*c.b+u*c.c;Object.assign(s,{place:A(n,k(o,c.depth)),
station:d,depth:c.depth,off:a})}function Pi(t,e,n,o,r){let[s,i]=[P(e,t),P(n,t)],c=H(r,i),a=E(s,c);if(Math.abs(a)<1e-12)return null;let f=P(o,t),l=E(f,c)/a,u=H(f,
s),d=E(r,u)/a;return l<0||d<0||l+d>1?null:{depth:E(i,u)/a,b:l,c:d}}var bo="\\d+(?:[.,]\\d+)?",$i=new RegExp(`^(?:(${bo})?(?:\\s+|^)(\\d+)/([1-9]\\d*)|(${bo}))\\s*(mm|cm|m|in|"|inch|inches)?$`),_i={mm:1,cm:10,m:1e3,in:25.4,'"':25.4,
inch:25.4,inches:25.4};function yo(t,e){let n=$i.exec(t.trim());if(!n)return NaN;let o=l=>Number((l||"0").replace(",",".")),[,r,s,i,c,a]=n,f=s?o(r)+o(s)/o(i):o(
c);return f>0?f*_i[a||e]:NaN}function ie(t,e){if(e==="mm")return`${t.toFixed(1)} mm`;let n=Math.round(t/25.4*64),[o,r]=[Math.floor(n/64),n%64],s=r?po(r,64):1;return`${[
o||!r?String(o):"",r?`${r/s}/${64/s}`:""].filter(Boolean).join(" ")} in (${t.toFixed(1)} mm)`}var po=(t,e)=>e?po(e,t%e):t;var Bi=9,Di=6.5,zi=[.1,-.1,.24,-.24,.38,-.38,.5,-.5],Ui=38;function vo(t,e,n,o){let r=t.cameras[n],s=L(t.store,e.state,!1),i=r.scale*t.data.diameter;if(!s||i<Ui||
t.choices.cut.way!=="off")return;let c=$(i*.12,Di,Bi),a=[];for(let[f,l]of e.paint.toned.entries()){let u=e.chips.filter(m=>m.opening===f),d=Hi(s,r,l);for(let m of u){
let h=Gi(o,{chip:m,seen:d,set:a,radius:c});h&&(a.push(h),Yi(t,[o.left+h[0],o.top+h[1]],m,c))}}}function Hi(t,e,{host:n,half:o}){let r=t.station[1]-t.station[0],
s=u=>$(Math.round((u-t.station[0])/r),0,t.n-1),[i,c]=[s(n-o),s(n+o)],a=Array.from({length:c-i+1},(u,d)=>i+d),f=new Float32Array(t.vertices);return{lines:Array.from(
{length:t.strands},(u,d)=>a.map(m=>Y(e,Wi(t,f,d,m)))),column:u=>s(n+u*o)-i}}function Wi({n:t,rays:e},n,o,r){let s=[0,0,0];for(let i=0;i<e;i++){let c=5*((o*t+r)*
e+i);for(let a=0;a<3;a++)s[a]+=n[c+a]/e}return s}function Gi(t,{chip:e,seen:n,set:o,radius:r}){let i=zi.map(l=>n.lines[e.strand][n.column(l)]).filter(([l,u])=>l>
r&&u>r&&l<t.width-r&&u<t.height-r&&o.every(([m,h])=>Math.hypot(l-m,u-h)>2*r+1)).filter(l=>!ji(n.lines,e.strand,l,r)),c=i.filter(([l,u])=>t.leaders.every(d=>Vi(d,
[l,u])>r+1)),a=([l,u])=>St(t.numbers,l,u)?.strand===e.strand,f=c.find(a)||i.find(a);return f?[f[0],f[1]]:null}function ji(t,e,[n,o,r],s){let i=([c,a,f])=>f>r&&Math.
hypot(n-c,o-a)<.6*s;return t.some((c,a)=>a!==e&&c.some(i))}function Vi([[t,e],[n,o]],[r,s]){let[i,c]=[n-t,o-e],a=$(((r-t)*i+(s-e)*c)/Math.max(i*i+c*c,1e-9),0,1);
return Math.hypot(r-t-a*i,s-e-a*c)}function Yi(t,[e,n],{words:o,colour:r},s){let i=W("text",{x:e,y:n+.42*s,class:"chip-text","font-size":1.33*s});i.textContent=
o,t.over.append(W("circle",{cx:e,cy:n,r:s,class:"chip",fill:re(r)}),i)}var Xi=14,Ki=9,qi=2.5,Ji=7,Qi=3,Zi=50,ko={width:.4,height:.26},Mo={width:260,height:170};function tc(t,e){let n=[];for(let r of t){let s=n.find(i=>i.some(({at:c})=>st(
P(c,r.at))<Ki*e));s?s.push(r):n.push([r])}let o=r=>r.filter(({letter:s})=>s).length;return n.sort((r,s)=>o(s)-o(r)).map(r=>ec(r,e))}function ec(t,e){let n=k(t.reduce(
(r,{at:s})=>A(r,s),[0,0,0]),1/t.length),o=Math.max(...t.map(({at:r})=>st(P(r,n))));return{places:t,middle:n,span:Math.max(2*(o+qi*e),Ji*e)}}function Eo(t,e,n,o){
let r=t.cameras[n],s=L(t.store,e.state,!0);if(!s||r.moved||t.into||r.scale*t.data.diameter>=Xi)return[];let c=[...e.marks.map(({letter:u,station:d})=>({letter:u,
at:Ht(s,d)})),...e.labels.map(({at:u})=>({letter:"",at:u}))].filter(({at:u})=>{let[d,m]=Y(r,u);return d>4&&m>4&&d<o.width-4&&m<o.height-4}),a=Math.round(Math.min(
ko.width*o.width,Mo.width)),f=Math.round(Math.min(ko.height*o.height,Mo.height));if(f<Zi)return[];let l={...o,boxes:o.boxes.slice(),leaders:o.leaders.slice()};return tc(
c,t.data.diameter).slice(0,Qi).flatMap(({places:u,middle:d,span:m})=>{let h=Math.min(a,1.6*f)/m,b=Y(r,d),y=h<1.5*r.scale?null:Oo(l,b,[a,f]);return y?(l.boxes.push(
y.box),l.leaders.push(lt(y.box,b)),[{box:y.box,spot:b,places:u,camera:_({...r,centre:d,scale:h},a,f)}]):[]})}function Ao(t,e,n,{box:o,spot:r,places:s,camera:i}){
n.boxes.push(o),ze(t,n,lt(o,r),!1);let c=g("canvas",{class:"inset","aria-hidden":"true"}),a={left:n.left+o[0],top:n.top+o[1],width:i.width,height:i.height};for(let[
f,l]of Object.entries(a))c.style.setProperty(f,`${l}px`);t.labels.append(c),nc(t,e,c,i,s)}async function nc(t,e,n,o,r){let{painter:s}=t,[i,c]=[o.width,o.height].
map(d=>Math.round(d*Math.min(t.size.ratio,2))),a=Ft(t,e,[0,0,i,c],o,!0);if(!a)return;let f=So(s,a);if(!await ce(s)||s!==t.painter)return;let{bytes:l}=Wt(s,f);if(!n.
isConnected)return;[n.width,n.height]=[i,c];let u=n.getContext("2d");if(u){u.putImageData(oc(l,i,c),0,0),u.scale(i/o.width,c/o.height);for(let{letter:d,at:m}of r)
d&&rc(u,d,Y(o,m))}}function oc(t,e,n){let o=new ImageData(e,n);for(let r=0;r<n;r++)for(let s=0;s<e;s++){let[i,c]=[4*((n-1-r)*e+s),4*(r*e+s)],a=t[i+3];for(let f=0;f<
3;f++)o.data[c+f]=a?255*t[i+f]/a:0;o.data[c+3]=a}return o}function rc(t,e,[n,o]){let r=getComputedStyle(t.canvas),[s,i]=[r.color,r.backgroundColor];t.font="600 \
13px system-ui, sans-serif",t.textAlign="center",t.lineJoin="round",t.lineWidth=4,t.strokeStyle=i,t.fillStyle=s,t.beginPath(),t.arc(n,o,3,0,2*Math.PI),t.fill(),
t.strokeText(e,n,o-7),t.fillText(e,n,o-7)}var rt=4,G=6,sc=180,ic=130,cc=30,Fo=[-1,1],ac=300,fc=900;function fe(t,e){t.labels.replaceChildren(),t.over.replaceChildren(),We(t),e&&Po(t)}function Io(t,e){fe(
t,!0),t.pictures.forEach((n,o)=>{if(!n.views||t.motion<1)return;let r=lc(t,o,e.shift());wc(t,n,o,r),t.choices.numbers&&vo(t,n,o,r)})}function lc(t,e,n){let[o,r,
s,i]=t.boxes[e],[c,a]=[Math.ceil(s/rt),Math.ceil(i/rt)],f=uc(n,c,a),l=new Int32Array((c+1)*(a+1));for(let u=0;u<a;u++)for(let d=0;d<c;d++){let m=(u+1)*(c+1)+d+1;
l[m]=f[u*c+d]+l[m-1]+l[m-c-1]-l[m-c-2]}return{left:o,top:r,width:s,height:i,across:c,down:a,sums:l,numbers:n,boxes:mc(t,o,r),leaders:[]}}function uc({width:t,height:e,
bytes:n},o,r){let s=new Uint8Array(o*r);for(let i=0;i<e;i++){let c=o*Math.min(Math.floor((e-1-i)/rt),r-1);for(let a=0;a<t;a++){let f=4*(i*t+a);(n[f]||n[f+3])&&(s[c+
Math.floor(a/rt)]=1)}}return dc(s,o,r)}function dc(t,e,n){let o=t.slice();for(let r=0;r<t.length;r++){if(!t[r])continue;let[s,i]=[r%e,Math.floor(r/e)];s>0&&(o[r-
1]=1),s<e-1&&(o[r+1]=1),i>0&&(o[r-e]=1),i<n-1&&(o[r+e]=1)}return o}function mc({canvas:t,covers:e},n,o){let r=t.getBoundingClientRect();return e.flatMap(s=>[...s.
children]).filter(s=>s.offsetParent!==null).map(s=>{let i=s.getBoundingClientRect(),[c,a]=[i.left-r.left-n,i.top-r.top-o];return[c,a,c+i.width,a+i.height]})}function hc({
sums:t,across:e,down:n},[o,r,s,i]){let[c,a]=[$(Math.floor(o/rt),0,e),$(Math.ceil(s/rt),0,e)],[f,l]=[$(Math.floor(r/rt),0,n),$(Math.ceil(i/rt),0,n)],u=e+1;return t[l*
u+a]-t[l*u+c]-t[f*u+a]+t[f*u+c]}function wc(t,e,n,o){let r=gc(t,e,n,o).map(c=>bc(t,c)),s=To(o,r),i=Eo(t,e,n,o);for(;i.length>0;){let c={...o,boxes:[...o.boxes,...i.
map(({box:f})=>f)]};c.leaders=[...o.leaders,...i.map(({box:f,spot:l})=>lt(f,l))];let a=To(c,r);if(a.placed.size<s.placed.size){i=i.slice(0,-1);continue}s=a;break}
for(let c of i)Ao(t,e,o,c);for(let c of r)vc(t,o,c,s.placed.get(c))}function To(t,e){let n=xc(e),o=Ue(n.map(r=>He(t,r,0)));if(o.cost>cc*e.length&&(o=Ue([o,...Fo.
flatMap(r=>n.map(s=>He(t,s,r)))])),o.poor.length>0){let r=[...o.poor,...e.filter(s=>!o.poor.includes(s))];o=Ue([o,...[0,...Fo].map(s=>He(t,r,s))])}return o}var Ue=t=>t.
reduce((e,n)=>n.cost<e.cost?n:e);function gc(t,e,n,o){let r=L(t.store,e.state,!1),s=[];if(t.choices.marks&&r)for(let{letter:f,station:l,words:u}of e.marks)s.push(
{letter:f,words:u,at:Ht(r,l)});if(t.choices.words)for(let{words:f,at:l}of e.labels)s.push({letter:"",words:f,at:l});let i=r&&Ge(t.choices.cut,r,t.cameras[n],t.data.
diameter);return s.filter(({at:f})=>!i||E(i.normal,f)<i.offset+.5*t.data.diameter).map(f=>({...f,spot:Y(t.cameras[n],f.at)})).filter(({spot:[f,l]})=>f>4&&l>4&&f<
o.width-4&&l<o.height-4)}function xc(t){let e=t.slice().sort((r,s)=>r.spot[0]-s.spot[0]);if(t.length<2)return[e];let n=(t.length-1)/2,o=e.map((r,s)=>s).sort((r,s)=>Math.
abs(r-n)-Math.abs(s-n));return[e,e.slice().reverse(),o.map(r=>e[r])]}function bc(t,{letter:e,words:n,spot:o}){let r=g("span",{text:n}),s=g("div",{class:"label"},
e?g("b",{text:e}):null,n?r:null);t.labels.append(s);let c=[[yc(s,n?r:s.firstChild),s.offsetHeight]];return e&&n&&(r.remove(),c.push([s.offsetWidth,s.offsetHeight]),
s.append(r)),{letter:e,spot:o,said:r,made:s,sizes:c,spaces:new Map}}function yc(t,e){let n=document.createRange();return n.selectNodeContents(e),Math.ceil(n.getBoundingClientRect().
right-t.getBoundingClientRect().left)+1}function He(t,e,n){let o={...t,boxes:t.boxes.slice(),leaders:t.leaders.slice()},r=new Map,s=[],i=0;for(let c of e){let a=pc(
o,c,n);i+=a?a.away+ac*a.short:fc,(!a||a.short)&&s.push(c),a&&(r.set(c,a),o.boxes.push(a.box),o.leaders.push(lt(a.box,c.spot)))}return{cost:i,placed:r,poor:s}}function pc(t,e,n){
for(let o of e.sizes.keys()){let r=Mc(t,e,o,n);if(r)return r}return null}function Ht({axis:t,station:e,n},o){let r=$((o-e[0])/(e[1]-e[0]),0,n-1),s=Math.min(Math.
floor(r),n-2),i=c=>t[3*s+c]+(t[3*s+3+c]-t[3*s+c])*(r-s);return[i(0),i(1),i(2)]}function vc(t,e,{letter:n,spot:o,said:r,made:s},i){if(!i){s.remove();return}let{box:c,
short:a}=i;a?r.remove():s.style.width=`${c[2]-c[0]}px`,s.style.left=`${e.left+c[0]}px`,s.style.top=`${e.top+c[1]}px`,e.boxes.push(c),ze(t,e,lt(c,o),!n&&kc(t,e,o))}
function kc(t,{numbers:e},[n,o,r]){let s=St(e,n,o);return s!==null&&s.strand>=0&&s.toward>r+.45*t.data.diameter}function Oo(t,e,n){return Lo(t,{spot:e,sizes:[n],
spaces:new Map},0,1/0,0).find(({box:r})=>Co(t,r,lt(r,e)))||null}function Mc(t,e,n,o){for(let r of e.letter?[sc,1/0]:[ic]){let i=Lo(t,e,n,r,o).find(({box:c})=>Co(
t,c,lt(c,e.spot)));if(i)return i}return null}function Lo(t,{spot:[e,n],sizes:o,spaces:r},s,i,c){let a=`${s} ${i} ${c}`,f=r.get(a);if(f)return f;let[l,u]=o[s],d=[],
m=2*rt,h=(p,x)=>G+m*Math.max(Math.floor((p-i-x-G)/m),0),[b,y]=[Math.min(t.width,e+i+l),Math.min(t.height,n+i+u)];for(let p=h(n,u);p+u+G<=y;p+=m)for(let x=h(e,l);x+
l+G<=b;x+=m){let v=[x,p,x+l,p+u];hc(t,[x-G,p-G,x+l+G,p+u+G])>0||d.push({away:Ec(v,[e,n],c),box:v,short:s})}return r.set(a,d.sort((p,x)=>p.away-x.away)),d}function Ec([
t,e,n,o],[r,s],i){let[c,a]=[Math.max(t-r,r-n,0),Math.max(e-s,s-o,0)];return Math.hypot(c,a)+.2*Math.abs((t+n+i*(t-n))/2-r)}function Co(t,e,n){let o=t.boxes.every(
s=>!Ac(e,s)),r=t.leaders.every(s=>!No(n,s)&&!Ro(s,e));return o&&r&&t.boxes.every(s=>!Ro(n,s))}function Ac(t,e){return t[0]<e[2]+G&&e[0]<t[2]+G&&t[1]<e[3]+G&&e[1]<
t[3]+G}function lt([t,e,n,o],[r,s]){return[[$(r,t,n),$(s,e,o)],[r,s]]}var ae=(t,e,n)=>(e[0]-t[0])*(n[1]-t[1])-(e[1]-t[1])*(n[0]-t[0]);function No([t,e],[n,o]){return ae(
t,e,n)*ae(t,e,o)<0&&ae(n,o,t)*ae(n,o,e)<0}function Ro(t,[e,n,o,r]){let[[s,i],[c,a]]=t,f=(u,d)=>u>e&&u<o&&d>n&&d<r;if(f(s,i)||f(c,a))return!0;let l=[[e,n],[o,n],
[o,r],[e,r]];return l.some((u,d)=>No(t,[u,l[(d+1)%4]]))}function ze(t,e,[n,o],r){e.leaders.push([n,o]);let[s,i,c,a]=[e.left+n[0],e.top+n[1],e.left+o[0],e.top+o[1]];
t.over.append(W("line",{x1:s,y1:i,x2:c,y2:a,class:"halo"})),t.over.append(W("line",{x1:s,y1:i,x2:c,y2:a,class:r?"leader behind":"leader"})),t.over.append(W("cir\
cle",{cx:c,cy:a,r:3.5,class:r?"spot behind":"spot"}))}function We(t){t.under.replaceChildren(),t.pictures.forEach((e,n)=>{let{ghost:o}=e,r=o&&t.choices.ghost&&t.
cameras[n]?L(t.store,o.state,!1):null;if(!o||!r)return;let[s,i]=t.boxes[n],c=[];for(let l=0;l<r.n;l++){let[u,d,m]=r.axis.subarray(3*l,3*l+3);c.push(Y(t.cameras[n],
Bt([u,d,m],o.turn)))}let a=c.map(([l,u],d)=>`${d?"L":"M"}${(s+l).toFixed(1)} ${(i+u).toFixed(1)}`).join(""),f=t.data.diameter*t.cameras[n].scale;t.under.append(
W("path",{d:a,class:"ghost-rim","stroke-width":f})),t.under.append(W("path",{d:a,class:"ghost","stroke-width":Math.max(f-3,1)}))})}function $o(t,e,n,o,r){let s=Do(t,e,[n,o],r),i=s&&Oc(s,r),c=L(t.store,t.pictures[e].state,!0);if(!i||!c)return null;let{dx:a,dy:f,strand:l,toward:u,open:d}=i,m=t.
pictures[e],h=ne(t.cameras[e],n+a,o+f),{runs:b}=le(c,m.paint,t.choices.parts,ut),y=xo(c,h,b,l,-u);return y?{place:d?A(h.from,k(h.along,-u)):y.place,station:y.station,
strand:l,panel:e}:null}function Oc(t,e){let n=null;for(let o=-e;o<=e;o++)for(let r=-e;r<=e;r++){let s=Math.hypot(r,o);if(s>e||n&&s>=n.away)continue;let i=St(t,e+
r,e+o);i&&i.strand>=0&&(n={...i,dx:r,dy:o,away:s})}return n}function _o(t,e){let{points:n}=t.measured;(n.length===2||n.length===1&&n[0].panel!==e.panel)&&(n.length=
0),n.push({...e,picture:t.pictures[e.panel]}),Gt(t),R(t)}function je([t,e]){return{straight:st(P(e.place,t.place)),along:Math.abs(e.station-t.station)}}function Gt(t){
let{points:e}=t.measured,n=w("measured");if(e.length<2){n.replaceChildren(g("p",{text:e.length?"Now touch the second place.":"Nothing measured yet."}));return}let{
straight:o,along:r}=je(e),s=(i,c)=>[g("dt",{text:i}),g("dd",{text:ie(c,t.data.unit)})];n.replaceChildren(g("dl",{},...s("straight",o),...s("along the rope",r)))}
function Bo(t){let e=t.pictures[0],n=L(t.store,e.state,!0),o=["mark-a","mark-b"].flatMap(s=>e.marks.filter(({letter:i})=>i===T(s).value));if(!n||o.length<2)return;
let r=o.map(({station:s})=>({place:Ht(n,s),station:s,panel:0,picture:e}));t.measured.points=r,Gt(t),R(t)}function Po(t){let e=t.measured.points.filter(({panel:n,
picture:o})=>t.pictures[n]===o&&t.cameras[n]).map(({place:n,panel:o})=>{let[r,s]=Y(t.cameras[o],n);return[t.boxes[o][0]+r,t.boxes[o][1]+s]});if(e.length===2){let[
[n,o],[r,s]]=e;for(let i of["halo","measure"])t.over.append(W("line",{x1:n,y1:o,x2:r,y2:s,class:i}))}for(let[n,o]of e)t.over.append(W("circle",{cx:n,cy:o,r:5,class:"\
measure-spot"}))}var Sc=[["off","no cut"],["across","across the rope"],["flat","along, level"],["upright","along, upright"]],ue=["across","upright"],Fc=[["corner","from a corner"],
["above","from above"],["below","from below"],["left","from the left"],["right","from the right"],["captive","from the captive end"],["eye","from the eye"]],Tc=(t,e)=>[
t,e];function Ye(t){let e=t.pictures.flatMap(({paint:o})=>o?o.parts.map((r,s)=>Tc(r,o.names[s])):[]),n=oe();w("parts").replaceChildren(...[...new Map(e)].map(([
o,r])=>Rc(t,o,r))),!n.isConnected&&document.getElementById(n.id)&&w(n.id).focus(),Lc(t),jt(t),n.closest("#corner")&&n.offsetParent===null&&t.canvas.focus(),Uo(t),
w("see-through").setAttribute("aria-pressed",String(t.choices.parts[de]===Rt))}function Rc(t,e,n){let o=[ut,Rt,jo].map(i=>[i,i]),r=i=>zo(t,e,Ot(i)),s=`part-${e}`;
return co(n,io({id:s,onchange:r},o,t.choices.parts[e]||ut))}function zo(t,e,n){t.choices.parts[e]=n,Ye(t),R(t)}function Ic(t){let e=t.choices.parts[de]===Rt;zo(
t,de,e?ut:Rt)}function Lc(t){let n=(t.pictures[0].views||[]).map((r,s)=>[`own-${s}`,s===0?"the step's own":"the step's other"]),o=T("view");o.replaceChildren(...[
...n,...Fc].map(([r,s])=>g("option",{value:r,text:s}))),o.value=`own-${t.view}`,w("other").hidden=n.length<2}function Xe(t,e){t.into=null,jt(t),e.startsWith("ow\
n-")?(t.view=Number(e.slice(4)),t.cameras=[],ft(t)):t.pictures.forEach((n,o)=>{let[,,r,s]=t.boxes[o];n.views&&(t.cameras[o]={...Vo(n,e,r,s,t.data.diameter),picture:n,
moved:!0})}),T("view").value=e,R(t)}function yt(t){Xe(t,"own-0")}function Cc(t){let{views:e}=t.pictures[0];e&&Xe(t,`own-${(t.view+1)%e.length}`)}function Uo(t){
let{cut:e}=t.choices;T("cut-way").value=e.way,T("cut-only").value=e.only,T("cut-place").value=String(e.place),T("cut-place").disabled=e.way==="off"}function Ve(t,e){
let{cut:n}=t.choices,o=n.way;Object.assign(n,e),n.way!==o&&(n.place=n.way==="flat"?.5:Nc(t)),n.way!==o&&(t.into=null),jt(t),ue.includes(n.way)?t.pictures.forEach(
(r,s)=>Ke(t,s)):ue.includes(o)&&yt(t),Uo(t),R(t)}function Nc(t){let{state:e,marks:n}=t.pictures[0],o=L(t.store,e,!1),r=n.find(({letter:s})=>s==="H2")||n[0];return e===
t.data.aim||!o||!r?t.data.cutPlace:(r.station-o.station[0])/(o.station[o.n-1]-o.station[0])}function Ke(t,e){let n=t.pictures[e],o=L(t.store,n.state,!1);if(!o)return;
let[,,r,s]=t.boxes[e],{cut:i}=t.choices,{centre:c,along:a}=qe(i,o),f=i.way==="across"?A(a,[0,0,.55]):A(H(a,[0,0,1]),[0,0,.35]),l=it(f,[0,0,1]),u=Math.min(r,s)/((i.
way==="across"?6:9)*t.data.diameter);t.cameras[e]={..._({...l,centre:c,scale:u},r,s),picture:n,moved:!0}}var Pc=[["terminator","terminator",(t,e)=>t.bodies.terminator=
e,t=>t.bodies.terminator],["tools","fids and other tools",(t,e)=>t.bodies.tools=e,t=>t.bodies.tools],["arrow","arrow for what moves",(t,e)=>t.bodies.arrow=e,t=>t.
bodies.arrow],["letters","marks with their letters",(t,e)=>t.marks=e,t=>t.marks],["labels","other labels",(t,e)=>t.words=e,t=>t.words],["numbers","numbers on th\
e strands",(t,e)=>t.numbers=e,t=>t.numbers],["ghost","where the rope lay before",(t,e)=>t.ghost=e,t=>t.ghost]];function Ho(t){let e=([n,o,r,s])=>{let i=g("input",
{type:"checkbox",id:`show-${n}`,checked:s(t.choices)});return i.addEventListener("change",()=>{r(t.choices,i.checked),R(t)}),g("div",{class:"tick"},i,g("label",
{for:`show-${n}`,text:o}))};w("switches").replaceChildren(...Pc.map(e)),w("view").addEventListener("change",n=>Xe(t,Ot(n))),w("home").addEventListener("click",()=>yt(
t)),w("other").addEventListener("click",()=>Cc(t)),w("nearer").addEventListener("click",()=>Tt(t,1.35)),w("farther").addEventListener("click",()=>Tt(t,1/1.35)),
w("see-through").addEventListener("click",()=>Ic(t)),w("into").addEventListener("click",()=>Go(t)),w("cut-way").replaceChildren(...Sc.map(([n,o])=>g("option",{value:n,
text:o}))),w("cut-way").addEventListener("change",n=>Ve(t,{way:Ot(n)})),w("cut-only").addEventListener("change",n=>Ve(t,{only:Ot(n)})),w("cut-place").addEventListener(
"input",n=>Ve(t,{place:Number(Ot(n))}));for(let n of["mark-a","mark-b"])w(n).addEventListener("change",()=>Bo(t));w("measure-clear").addEventListener("click",()=>{
t.measured.points=[],Gt(t),R(t)})}function Tt(t,e){pt(t,n=>Dt(n,e,[0,0]))}function pt(t,e){t.cameras=t.cameras.map(n=>n&&{...e(n),picture:n.picture,moved:!0}),R(
t)}function Wo(t){let e=(t.pictures[0].marks||[]).map(({letter:n})=>[n,n]);for(let n of["mark-a","mark-b"]){let o=[["","a mark"],...e].map(([r,s])=>g("option",{
value:r,text:s}));w(n).replaceChildren(...o)}Gt(t)}var $c=24;function Xo(t,e,n){let o=_c(t,n),r=Bc(t,e),s=Dc(t,o,r);return{a:t,from:o,to:Hc(t,r,s),turns:s,anchor:Wc(t.n,o.axis,r.axis)}}function _c({vertices:t,axis:e},n){
let{places:o,normals:r}=Ko(t),[s,i]=[Math.cos(n),Math.sin(n)],c=Float32Array.from(e);for(let a of[o,r,c])for(let f=0;f<a.length;f+=3){let[l,u]=[a[f],a[f+1]];a[f]=
s*l-i*u,a[f+1]=i*l+s*u}return{places:o,normals:r,axis:c}}function Ko(t){let[e,n]=[new Float32Array(t),new Int8Array(t)],o=t.byteLength/N,[r,s]=[new Float32Array(
3*o),new Float32Array(3*o)];for(let i=0;i<o;i++)for(let c=0;c<3;c++)r[3*i+c]=e[5*i+c],s[3*i+c]=n[N*i+12+c]/127;return{places:r,normals:s}}function Bc(t,e){let{places:n,
normals:o}=Ko(e.vertices),r=t.vertices.byteLength/N,s={places:new Float32Array(3*r),normals:new Float32Array(3*r),axis:new Float32Array(3*t.n)},i=e.station[1]-e.
station[0];for(let c=0;c<t.n;c++){let a=Math.min(Math.max((t.station[c]-e.station[0])/i,0),e.n-1),[f,l]=[Math.min(Math.floor(a),e.n-2),a-Math.min(Math.floor(a),
e.n-2)];Je(e.axis,f,f+1,l,s.axis,c);for(let u=0;u<t.strands;u++)for(let d=0;d<t.rays;d++){let[m,h]=[(u*e.n+f)*e.rays+d,(u*e.n+f+1)*e.rays+d],b=(u*t.n+c)*t.rays+
d;Je(n,m,h,l,s.places,b),Je(o,m,h,l,s.normals,b)}}for(let c=0;c<t.strands;c++)Yo(t,e,o,c,0,s),Yo(t,e,o,c,1,s);return s}function Yo(t,e,n,o,r,s){let i=({strands:u,
n:d,rays:m})=>u*d*m+(r*u+o)*(m+1),c=(o*t.n+(r?t.count[o]-1:0))*t.rays,[a,f]=[i(t),i(e)],l=s.places.subarray(3*(a+t.rays),3*(a+t.rays)+3);for(let u=0;u<=t.rays&&
(s.normals.set(n.subarray(3*f,3*f+3),3*(a+u)),u!==t.rays);u++){let d=s.places.subarray(3*(c+u),3*(c+u)+3);s.places.set(d,3*(a+u));for(let m=0;m<3;m++)l[m]+=d[m]/
t.rays}}function Je(t,e,n,o,r,s){for(let i=0;i<3;i++)r[3*s+i]=t[3*e+i]+(t[3*n+i]-t[3*e+i])*o}function Dc(t,e,n){let o=new Float64Array(4*t.n),r=[0,0,0,1];for(let s=0;s<
t.n;s++){let i=Uc(zc(t,e,n,s),r),c=i.reduce((a,f,l)=>a+f*r[l],0)<0?-1:1;r=i.map(a=>c*a),o.set(r,4*s)}return o}function zc({n:t,strands:e,rays:n},o,r,s){let i=new Float64Array(
9),c=n>>1,a=(p,x)=>{for(let v=0;v<3;v++)for(let M=0;M<3;M++)i[3*v+M]+=p[v]*x[M]},f=(p,x)=>[0,1,2].map(v=>(p.places[3*x+v]+p.places[3*(x+c)+v])/2-p.axis[3*s+v]);
for(let p=0;p<e;p++)a(f(o,(p*t+s)*n),f(r,(p*t+s)*n));let[l,u]=[Math.max(s-1,0),Math.min(s+1,t-1)],d=p=>[0,1,2].map(x=>p[3*u+x]-p[3*l+x]),[m,h]=[d(o.axis),d(r.axis)],
b=i[0]+i[4]+i[8],y=Math.sqrt(Math.max(Math.abs(b),1e-6))/Math.max(Math.hypot(...m),Math.hypot(...h),1e-9);return a(m.map(p=>p*y),h.map(p=>p*y)),i}function Uc(t,e){
let[n,o,r,s,i,c,a,f,l]=t,u=[[n-i-l,o+s,a+r,c-f],[o+s,i-n-l,c+f,a-r],[a+r,c+f,l-n-i,o-s],[c-f,a-r,o-s,n+i+l]],d=Math.max(...u.map(h=>h.reduce((b,y)=>b+Math.abs(y),
0))),m=e.map((h,b)=>h+.01*(b+1));for(let h=0;h<$c;h++){let b=u.map((p,x)=>p.reduce((v,M,O)=>v+M*m[O],d*m[x])),y=Math.max(Math.hypot(...b),1e-300);m=b.map(p=>p/y)}
return m}function Hc({n:t,strands:e,rays:n,count:o},r,s){let i={places:new Float32Array(r.places.length),normals:new Float32Array(r.normals.length),axis:r.axis},
c=new Float64Array(9);return qo({n:t,strands:e,rays:n,count:o},(a,f)=>{Qe(s,f,-1,c);for(let[l,u]of[[r.places,r.axis],[r.normals,null]]){let[d,m,h]=[0,1,2].map(y=>l[3*
a+y]-(u?u[3*f+y]:0)),b=u?i.places:i.normals;for(let y=0;y<3;y++)b[3*a+y]=c[3*y]*d+c[3*y+1]*m+c[3*y+2]*h}}),i}function qo({n:t,strands:e,rays:n,count:o},r){let s=e*
t*n,i=e*(n+1);for(let c=0;c<e;c++)for(let a=0;a<=n;a++)r(s+c*(n+1)+a,0),r(s+i+c*(n+1)+a,o[c]-1);for(let c=0;c<t;c++)for(let a=0;a<e;a++)for(let f=0;f<n;f++)r((a*
t+c)*n+f,c)}function Qe(t,e,n,o){let[r,s,i,c]=t.subarray(4*e,4*e+4),a=Math.hypot(r,s,i),f=n*Math.atan2(a,c),[l,u]=[Math.cos(f),a>1e-12?Math.sin(f)/a:0],[d,m,h]=[
r*u,s*u,i*u];o[0]=1-2*(m*m+h*h),o[1]=2*(d*m-l*h),o[2]=2*(d*h+l*m),o[3]=2*(d*m+l*h),o[4]=1-2*(d*d+h*h),o[5]=2*(m*h-l*d),o[6]=2*(d*h-l*m),o[7]=2*(m*h+l*d),o[8]=1-
2*(d*d+m*m)}function Wc(t,e,n){let[o,r]=[0,1/0];for(let s=0;s<t;s++){let i=Math.hypot(e[3*s]-n[3*s],e[3*s+1]-n[3*s+1],e[3*s+2]-n[3*s+2]);i<.99*r&&([o,r]=[s,i])}
return o}function Jo(t,e,n,o){let{a:r,from:s,to:i,turns:c}=t,a=new Float64Array(9*r.n);for(let m=0;m<r.n;m++)Qe(c,m,e,a.subarray(9*m,9*m+9));Gc(t,e,a,o);let[f,l]=[
new Float32Array(n),new Int8Array(n)],[u,d]=[s.axis,1-e];qo(r,(m,h)=>{let[b,y,p]=[3*m,3*h,9*h],x=(s.places[b]-u[y])*d+i.places[b]*e,v=(s.places[b+1]-u[y+1])*d+i.
places[b+1]*e,M=(s.places[b+2]-u[y+2])*d+i.places[b+2]*e,O=s.normals[b]*d+i.normals[b]*e,S=s.normals[b+1]*d+i.normals[b+1]*e,F=s.normals[b+2]*d+i.normals[b+2]*e,
z=127/Math.max(Math.sqrt(O*O+S*S+F*F),1e-9);for(let C=0;C<3;C++){let[U,ht,wt]=[a[p+3*C],a[p+3*C+1],a[p+3*C+2]];f[5*m+C]=o[y+C]+U*x+ht*v+wt*M,l[N*m+12+C]=Math.round(
(U*O+ht*S+wt*F)*z)}})}function Gc({a:t,from:e,to:n,turns:o,anchor:r},s,i,c){let a=new Float64Array(9),f=d=>e.axis[3*r+d]*(1-s)+n.axis[3*r+d]*s,l=[f(0),f(1),f(2)];
c.set(l,3*r);let u=(d,m)=>{Qe(o,d,-1,a);let h=[0,1,2].map(v=>n.axis[3*(d+m)+v]-n.axis[3*d+v]),y=[0,1,2].map(v=>e.axis[3*(d+m)+v]-e.axis[3*d+v]).map((v,M)=>v*(1-
s)+(a[3*M]*h[0]+a[3*M+1]*h[1]+a[3*M+2]*h[2])*s),p=9*d,x=v=>i[p+3*v]*y[0]+i[p+3*v+1]*y[1]+i[p+3*v+2]*y[2];l=[l[0]+x(0),l[1]+x(1),l[2]+x(2)],c.set(l,3*(d+m))};for(let d=r;d+
1<t.n;d++)u(d,1);l=[f(0),f(1),f(2)];for(let d=r;d>0;d--)u(d,-1)}var jc="On the way from the step before: drawn between two settled shapes, and not settled itself.";function Vc(t){let[e]=t.pictures,{store:n}=t;if(t.pictures.length>
1||!e.ghost)return null;let[o,r]=[e.ghost.state,e.state].map(s=>n.kept.get(se(s,"coarse")));return o&&r?{picture:e,a:o.rope,b:r.rope,turn:e.ghost.turn}:null}function Qo(t,e){
let n=t.motion<1?Vc(t):null;if(!n||n.picture!==e)return null;let o=Yc(t,n.a,n.b,n.turn);if(o.share!==t.motion){let{rope:r}=o;Jo(o.morph,t.motion,r.vertices,r.axis);
let{gl:s}=t.painter;s.bindBuffer(s.ARRAY_BUFFER,r.buffer),s.bufferSubData(s.ARRAY_BUFFER,0,r.vertices),o.share=t.motion}return o.rope}function Yc(t,e,n,o){let r=t.
moving;if(r&&r.a===e&&r.b===n)return r;Xc(t);let s=e.vertices.slice(0),i=Float32Array.from(e.radius,(a,f)=>Math.max(a,n.radius[Math.min(f,n.n-1)])),c=At(t.painter.
gl,{...e,vertices:s,axis:e.axis.slice(),radius:i});return t.moving={a:e,b:n,morph:Xo(e,n,o),rope:c,share:-1},t.moving}function Xc(t){t.moving&&ct(t.painter.gl,t.
moving.rope),t.moving=null}var Zo=t=>({...t,inked:[],dots:[]});function tr(t){t.motion=1;let[{ghost:e,views:n}]=t.pictures;w("motion").hidden=t.pictures.length>
1||!e||!n||t.practice.on,T("way").value="1"}function er(t){let e=T("way");e.addEventListener("input",()=>{let{ghost:n,state:o}=t.pictures[0];for(let r of n?[o,n.
state]:[])ot(t.store,r,!1,!0);t.motion=Number(e.value),e.setAttribute("aria-valuetext",t.motion<1?`${Math.round(100*t.motion)} % of the way`:"this step"),Q(t,t.
motion<1?jc:""),R(t)})}var nr=new Map;function Z(t){try{return localStorage.getItem(t)}catch{return nr.get(t)||null}}function j(t,e){try{localStorage.setItem(t,e)}catch{nr.set(t,e)}}function V(t,e){if(t.practice={on:e,at:0,tries:0,first:0,done:!1},document.body.classList.toggle("practising",e),w("practise").setAttribute("aria-pressed",String(
e)),!e){t.entries=t.all.steps,I(t,t.leftAt||0);return}t.entries===t.all.steps&&(t.leftAt=t.at),t.bench&&et(t,!1),tt(t,"words"),cr(t)}function rr({data:t},e){let n=t.
steps.find(({state:o})=>o===e);if(!n)throw new Error(`no step shows ${e}`);return n}function sr(t,e){let n=rr(t,e.before),o=vt({...n,bodies:null,labels:ir(n)},null);
return{kind:"question",key:"question",step:n,pictures:[o]}}var ir=({labels:t})=>(t||[]).filter(({words:e})=>e.endsWith("face"));function cr(t){let{practice:e,data:n}=t,
o=n.practice[e.at];if(!o){Zc(t);return}e.tries=0,t.entries=[sr(t,o)],I(t,0),ar(t,o)}function ar(t,e){let{practice:n,data:o}=t,r=s=>{let i=()=>qc(t,e,s);return g(
"button",{type:"button",class:"answer",text:s.words,onclick:i})};w("words").replaceChildren(g("h2",{id:"title",tabindex:"-1",text:`Question ${n.at+1} of ${o.practice.
length}`}),g("p",{class:"ask",text:e.ask}),...Kc(e.options).map(r)),w("title").focus()}function Kc(t){return t.map(e=>({at:Math.random(),option:e})).sort((e,n)=>e.
at-n.at).map(({option:e})=>e)}function qc(t,e,n){let{practice:o}=t;if(o.tries+=1,n.right&&o.tries===1&&(o.first+=1),n.right){let c=rr(t,n.shows),a=[vt({...c,labels:ir(
c)},null)];t.entries=[{kind:"question",key:"question",step:c,pictures:a}],or(t,n,"Right.",[],["Go on",()=>Jc(t)]);return}let r=t.all.wrong.filter(({way:c})=>c.state===
n.shows),[{way:s}]=r,i=[g("h3",{text:"What gives it away"}),J("ul",s.signs)];t.entries=r,or(t,n,`This is the result: ${s.title}.`,i,["Try again",()=>Qc(t,e)])}function or(t,e,n,o,[
r,s]){I(t,0),w("words").replaceChildren(g("h2",{id:"title",tabindex:"-1",class:e.right?"right":"wrong",text:n}),g("p",{text:e.why}),...o,g("button",{type:"butto\
n",class:"next",text:r,onclick:s})),w("title").focus()}function Jc(t){t.practice.at+=1,cr(t)}function Qc(t,e){t.entries=[sr(t,e)],I(t,0),ar(t,e)}function Zc(t){
let{practice:e,data:n}=t,o=`fidpath practice ${n.method} ${n.name}`,r=Math.max(Number(Z(o)||0),e.first);j(o,String(r));let s=n.practice.length;w("words").replaceChildren(
g("h2",{id:"title",tabindex:"-1",text:`${e.first} of ${s} right at the first try`}),g("p",{text:`Best so far: ${r} of ${s}. The score is kept on this device onl\
y.`}),g("button",{type:"button",class:"next",text:"Once more",onclick:()=>V(t,!0)}),g("button",{type:"button",text:"Back to the steps",onclick:()=>V(t,!1)})),w(
"title").focus()}var It=["words","look","measure","marks","wrongs","care"];function tt(t,e){t.tab=e,document.body.dataset.tab=e;for(let n of It){w(n).hidden=n!==e;let o=w(`tab-${n}`);
o.setAttribute("aria-selected",String(n===e)),o.tabIndex=n===e?0:-1}t.canvas.classList.toggle("picking",e==="measure")}function fr(t){for(let e of It)w(`tab-${e}`).
addEventListener("click",()=>tt(t,e));w("tabs").addEventListener("keydown",e=>{let n={ArrowLeft:-1,ArrowRight:1}[e.key];if(!n)return;e.preventDefault();let o=It[(It.
indexOf(t.tab)+n+It.length)%It.length];tt(t,o),w(`tab-${o}`).focus()})}function et(t,e){t.bench=e,document.body.classList.toggle("benching",e),w("bench").setAttribute(
"aria-pressed",String(e)),e&&t.practice.on&&V(t,!1),e&&tt(t,"words"),Ze(t),me(t)}async function Ze(t){let e=()=>t.bench&&document.visibilityState==="visible";if(navigator.
wakeLock){if(!e()){t.awake&&t.awake.release(),t.awake=null;return}if(!(t.waking||t.awake&&!t.awake.released)){t.waking=!0;try{t.awake=await navigator.wakeLock.request(
"screen")}catch{t.awake=null}t.waking=!1,e()||Ze(t)}}}function lr(){let t=n=>{document.documentElement.dataset.light=n,w("light").textContent=n==="dark"?"Light":
"Dark"},e=window.matchMedia("(prefers-color-scheme: dark)").matches?"dark":"light";t(Z("fidpath light")||e),w("light").addEventListener("click",()=>{let n=document.
documentElement.dataset.light==="dark"?"light":"dark";t(n),j("fidpath light",n)})}function ur(t){let{slider:e,before:n,after:o}=t.steer;e.addEventListener("inpu\
t",()=>I(t,Number(e.value))),n.addEventListener("click",()=>I(t,t.at-1)),o.addEventListener("click",()=>I(t,t.at+1)),w("light").addEventListener("click",()=>R(t)),
w("bench").addEventListener("click",()=>et(t,!t.bench)),document.addEventListener("visibilitychange",()=>Ze(t)),w("practise").addEventListener("click",()=>V(t,!t.
practice.on))}var he={name:"silent",at:0,pause:0};function dr(t,e,n){let{name:o,at:r,pause:s}=t;return e.is==="start"?{reading:{name:"saying",at:0,pause:e.pause},deed:"say"}:
o==="silent"?{reading:t,deed:"none"}:e.is==="stop"?{reading:he,deed:"hush"}:e.is==="moved"?{reading:{...t,name:"saying",at:0},deed:"say"}:e.is==="said"&&o==="sa\
ying"?r+1>=n&&s===0?{reading:he,deed:"hush"}:{reading:{...t,name:"pausing"},deed:"wait"}:e.is==="waited"&&o==="pausing"?r+1>=n?{reading:t,deed:"go on"}:{reading:{
...t,name:"saying",at:r+1},deed:"say"}:{reading:t,deed:"none"}}var mr=t=>[...t.querySelectorAll("h2, ol > li, ul:not(.key) > li, .check label, p")];var ta=.6,ea=[["0","stop at the end of the step"],["5","go on, 5 s after each sentence"],["15","go on, 15 s after each sentence"],["40","go on, 40 s after each \
sentence"]];function hr(t){let{speechSynthesis:e}=window;!e||typeof SpeechSynthesisUtterance>"u"||(w("aloud").hidden=!1,T("pause").replaceChildren(...ea.map(([n,
o])=>g("option",{value:n,text:o}))),T("pause").value=Z("fidpath pause")||"0",T("pause").addEventListener("change",()=>j("fidpath pause",T("pause").value)),w("re\
ad").addEventListener("click",()=>{let n=t.reading.name==="silent";kt(t,n?{is:"start",pause:Number(T("pause").value)}:{is:"stop"})}),window.addEventListener("pa\
gehide",()=>kt(t,{is:"stop"})))}function wr(t){let e=t.entry.kind==="step"||t.entry.kind==="aim";w("aloud").classList.toggle("off",!e),t.reading.name!=="silent"&&
kt(t,{is:e?"moved":"stop"})}function kt(t,e){let n=mr(w("words")),{reading:o,deed:r}=dr(t.reading,e,n.length);if(t.reading=o,r==="none")return;clearTimeout(t.aloud),
r==="say"&&oa(t,n[o.at]),r==="hush"&&window.speechSynthesis.cancel(),r==="wait"&&(t.aloud=setTimeout(()=>kt(t,{is:"waited"}),1e3*(o.pause||ta))),r==="go on"&&na(
t);let s=o.name==="silent";w("read").textContent=s?"Read aloud":"Stop reading",w("read").setAttribute("aria-pressed",String(!s));for(let[i,c]of n.entries())c.classList.
toggle("reading",!s&&i===o.at)}function na(t){t.at+1<t.entries.length?I(t,t.at+1):kt(t,{is:"stop"})}function oa(t,e){let n=window.speechSynthesis,o=new SpeechSynthesisUtterance(
e.textContent||"");o.lang=document.documentElement.lang,t.spoken=o;let r=()=>{t.spoken===o&&kt(t,{is:"said"})};o.onend=r,o.onerror=({error:s})=>{s!=="interrupte\
d"&&s!=="canceled"&&t.spoken===o&&kt(t,{is:"stop"})},n.cancel(),n.speak(o),e.scrollIntoView({block:"nearest"})}function gr(t){document.body.classList.toggle("card-only",t),window.print()}function xr(){window.addEventListener("afterprint",()=>document.body.classList.remove(
"card-only"))}var br=()=>g("div",{class:"print"},g("button",{type:"button",id:"print-card",text:"Print this card",onclick:()=>gr(!0)}),g("button",{type:"button",
id:"print-all",text:"Print card and steps",onclick:()=>gr(!1)}));function ge(t,e){let n=["what","how much","measured from"].map(s=>g("th",{scope:"col",text:s})),o=({label:s,shown:i,measured_from:c,note:a})=>g("tr",{},g("th",{
scope:"row",text:s}),g("td",{text:i}),g("td",{},c,a?g("small",{text:a}):null)),r=g("thead",{},g("tr",{},...n));return g("table",{},g("caption",{text:t}),r,g("tb\
ody",{},...e.map(o)))}var we=(t,...e)=>g("details",{},g("summary",{text:t}),...e);function ra(t){let e=({label:n,formula:o,source:r})=>[g("dt",{text:n}),g("dd",
{text:`${o} [${r}]`})];return g("dl",{},...t.flatMap(e))}function yr(t,{marks:e}){let n=t.data.tables.marks.filter(({label:o})=>(e||[]).some(({letter:r})=>o===r||
o.startsWith(`${r},`)));return n.length===0?null:g("div",{class:"own-marks"},ge("Marks of this step",n))}function pr(t){let{tables:e}=t.data;w("marks").replaceChildren(
ge("Marks, in the order in which they are made",e.marks),br(),we("Lengths",ge("Lengths",e.lengths)),we("Angles, counts and tensions",ge("Angles, counts and tens\
ions",e.figures)),we("Formulas and sources",ra([...e.marks,...e.lengths,...e.figures])),...e.words.length>0?[we("Words",J("ul",e.words))]:[]);let n=[g("h3",{text:"\
Warnings of this plan"}),J("ul",e.warnings)],o=[g("h2",{text:"Cautions"}),J("ul",e.cautions)];w("care").replaceChildren(...o,...e.warnings.length>0?n:[]),w("wro\
ngs").replaceChildren(g("h2",{text:"Usual mistakes"}),g("p",{text:"Tap the picture that looks like your rope. Each shows the mistake beside the right way."}),g(
"ol",{class:"mistake-grid"},...t.all.wrong.map((r,s)=>sa(t,r,s+1))))}function sa(t,e,n){let{state:o,step:r,title:s}=e.way,i=document.querySelector(`#plain img[d\
ata-state="${CSS.escape(o)}"]`),c=i instanceof HTMLImageElement?g("img",{src:i.src,alt:""}):null,a=g("span",{text:`${n}. ${s} (step ${r})`});return g("li",{},g(
"button",{type:"button",onclick:()=>tn(t,e)},c,a))}function xe(t){let{entry:e}=t,n=e.kind==="wrong"?ua(t,e.way):ia(t,e),o=w("words").contains(document.activeElement);w("words").replaceChildren(...n.filter(r=>r!==
null)),o&&!w("words").contains(document.activeElement)&&w("title").focus(),w("words").scrollTop=0,wr(t)}function ia(t,e){let n=g("h2",{id:"title",tabindex:"-1",
text:Vt(t,e)}),o=aa(t,e.pictures[0]);if(e.kind==="aim"){let f=[t.data.summary,"Turn it with a finger or the mouse. Then go through the steps one by one."].map(l=>g(
"p",{text:l}));return[n,...f,...kr(t),o,en(t.data.caution)]}let{step:r}=e,s=r.caution?[en(r.caution)]:[],i=yr(t,e.pictures[0]),c=vr(t,r);return[n,J("ol",r.instructions),
i,c,...s,...ca(t,r),...la(t,r),o]}function ca(t,e){return e!==t.data.steps[t.data.steps.length-1]?[]:[g("button",{type:"button",text:"Type in what you measured",
onclick:()=>{t.bench&&et(t,!1),tt(t,"measure"),w("typed").scrollIntoView({block:"start"}),w("typed").querySelector("input")?.focus({preventScroll:!0})}})]}var en=t=>g(
"p",{class:"caution"},g("b",{text:"Take care. "}),t);function aa({data:t},{paint:e}){if(!e)return"";let n=(r,s)=>g("li",{},...r.map(i=>fa(g("i",{class:"swatch"}),
i)),s),o=e.names.map((r,s)=>n(e.pairs[s],r));return e.toned.length>0&&(o.push(n([t.palette.groups[0]],"top group"),n([t.palette.groups[1]],"bottom group")),e.toned.
some(({followed:r})=>r>0)&&o.push(n([t.palette.groups[2]],"one strand of the group")),o.push(n([t.palette.dot[0]],"dotted face"),n([t.palette.plainFace],"plain \
face"))),g("ul",{class:"key","aria-label":"Colours"},...o)}function fa(t,e){return t.style.background=re(e),t}function la(t,e){let n=t.all.wrong.filter(({way:r})=>String(
r.step)===e.name.replace(/[a-z]$/,""));if(n.length===0)return[];let o=r=>g("button",{type:"button",class:"link",text:r.way.title,onclick:()=>tn(t,r)});return[g(
"div",{class:"here"},g("h3",{text:"What goes wrong here"}),...n.map(o))]}function ua(t,e){let n=e.off?[g("h3",{text:"How far off"}),g("p",{text:e.off})]:[];return[
g("h2",{id:"title",tabindex:"-1",text:Vt(t,t.entry)}),g("h3",{text:"What gives it away"}),J("ul",e.signs),...n,g("h3",{text:"Remedy"}),J("ol",e.back),en(t.data.
doubt),g("button",{type:"button",text:"Back to the steps",onclick:()=>nn(t)})]}function tn(t,e){t.entries===t.all.steps&&(t.leftAt=t.at),t.entries=t.all.wrong,I(
t,t.all.wrong.indexOf(e)),tt(t,"words"),w("title").focus()}function nn(t){t.entries=t.all.steps,I(t,t.leftAt||0)}var da=800,Mr=["bench","practise"];function be(t){let e=new URLSearchParams(t.slice(1)),n=[...e.keys()].find(o=>!Mr.includes(o))||"";return{at:e.get("at")||n,mode:Mr.
find(o=>e.has(o))||""}}function Er(t){let e=t.practice.on?t.all.steps[t.leftAt||0]:t.entry,n=t.practice.on?"&practise":t.bench?"&bench":"";return`#at=${e.key}${n}`}
function me(t){let e=Er(t),n=t.fragment===void 0;if(e===t.fragment||(t.fragment=e,n||t.returning))return;let o=performance.now(),r=o-t.keptAt<da?"replaceState":
"pushState";t.keptAt=o;try{history[r](null,"",e)}catch{}}function ma(t){let{at:e,mode:n}=be(location.hash);t.returning=!0,t.practice.on!==(n==="practise")&&V(t,
n==="practise"),t.bench!==(n==="bench")&&et(t,n==="bench"),t.practice.on||Lt(t,e),t.returning=!1,t.fragment=Er(t)}function Ar(t){let{mode:e}=be(location.hash);e===
"bench"&&et(t,!0),e==="practise"&&t.data.practice.length>0&&V(t,!0),window.addEventListener("popstate",()=>ma(t))}function Yt(t,{name:e,method:n,tables:o}){let r=[
...o.marks,...o.lengths].map(({label:s,shown:i})=>[s,i]);return`fidpath ${t} ${n} ${e} ${Jt(JSON.stringify(r))}`}var on=t=>Yt("checks",t);function rn({data:t}){
let e=(Z(on(t))||"").split(" ");return t.steps.map(({name:n})=>n).filter(n=>e.includes(n))}function ha(t,e,n){let o=rn(t).filter(r=>r!==e);j(on(t.data),[...o,...n?
[e]:[]].join(" "))}function vr(t,e){let n=`check-${e.name}`,o=g("input",{type:"checkbox",id:n,checked:rn(t).includes(e.name)});o.addEventListener("change",()=>ha(
t,e.name,o.checked));let r=g("label",{for:n},g("b",{text:"Check. "}),e.check);return g("div",{class:"check tick"},o,r)}function kr(t){let e=rn(t);if(e.length===
0)return[];let n=t.data.steps.map(({name:i})=>i),o=n[n.indexOf(e[e.length-1])+1],r=()=>Lt(t,`step-${o}`),s=()=>{j(on(t.data),""),xe(t),w("title").focus()};return[
g("p",{text:`${e.length} of ${n.length} checks are ticked.`}),o?g("button",{type:"button",class:"next",text:`Go on at step ${o}`,onclick:r}):null,g("button",{type:"\
button",text:"Clear the ticks",onclick:s})]}function sn(t){let e=t.steps[t.steps.length-1],n=Object.keys(t.states),o=t.steps.find(({state:a})=>a===t.aim)||e,r=t.steps.map((a,f)=>{let l=wa(t.steps[f-1],a);
return{kind:"step",key:`step-${a.name}`,step:a,pictures:[vt(a,l)]}}),s={...o,bodies:null,labels:[],...t.home},i={kind:"aim",key:"aim",step:o,pictures:[vt(s,null)]},
c=t.wrong.map(a=>({kind:"wrong",key:`wrong-${a.state}`,way:a,pictures:[vt({...a.right,missing:a.beside},null),vt({...a,missing:a.state},null)]}));return{aim:i,steps:[
i,...r],wrong:c,any:n.length>0}}function wa(t,e){return!t||!t.views||!e.views||t.state===e.state?null:{state:t.state,turn:e.heading-t.heading}}function vt({state:t,
missing:e,heading:n,views:o,marks:r,paint:s,labels:i,chips:c,holes:a,bodies:f},l){return{state:t||e,heading:n,views:o,marks:r,paint:s,labels:i,chips:c,holes:a,bodies:f,
ghost:l}}function I(t,e){let n=$(e,0,t.entries.length-1),o=n!==t.at||t.entry!==t.entries[n];t.at=n,t.entry=t.entries[n],t.view=0,t.into=null,o&&(t.measured.points=
[]),cn(t),me(t),o&&window.dispatchEvent(new CustomEvent("fidpath-shown",{detail:t.entry.key}))}function cn(t){t.pictures=t.entry.pictures,t.cameras.length=t.pictures.
length,document.body.classList.toggle("beside",t.pictures.length>1),document.body.classList.toggle("old",Or(t)),t.choices.cut.way!=="flat"&&Object.assign(t.choices.
cut,{way:"off",place:.5}),ye(t),Ye(t),tr(t),ft(t),xe(t),xa(t),Wo(t),Q(t,an(t)),R(t)}function ye(t){for(let{state:e,views:n}of t.pictures){let o=!t.phase.ever&&e===
t.data.aim&&t.data.home.only;n&&ot(t.store,e,!1,!0,o||void 0)}}function an(t){return t.phase.name==="lost"?"The graphics card isn't available now. The picture c\
omes back when the card does.":t.pictures.filter(({views:n})=>!n).length>0?"This step isn't settled yet. Its picture will follow.":Or(t)?"The picture is still t\
hat of the figures before. The new one follows.":""}function Or({data:t,pictures:e}){let n=t.old||[];return e.some(({state:o,views:r})=>r&&n.includes(o))}function Q(t,e,n){
t.note.textContent=e,t.note.hidden=!e,clearTimeout(t.saying),n&&(t.saying=setTimeout(()=>Q(t,""),n))}function Vt(t,e){return e.kind==="aim"?"The aim: the finish\
ed splice":e.kind==="wrong"?`Mistake at step ${e.way.step}: ${e.way.title}`:`Step ${e.step.name} of ${t.data.steps[t.data.steps.length-1].name}: ${e.step.caption}`}
function ga(t){return t.kind==="wrong"?"Mistake":t.kind==="aim"?"Aim":`Step ${t.step.name}`}function xa(t){let{slider:e,place:n,before:o,after:r}=t.steer;e.max=
String(t.entries.length-1),e.value=String(t.at),e.setAttribute("aria-valuetext",Vt(t,t.entry)),n.textContent=ga(t.entry);let s=oe();o.disabled=t.at===0,r.disabled=
t.at===t.entries.length-1,s.disabled&&w("title").focus(),t.canvas.setAttribute("aria-label",`Model of the rope. ${Vt(t,t.entry)}`)}var Sr={name:"loading",turn:0,rest:0,fresh:!0,ever:!1};function Fr(t,e){if(t.name==="lost"&&e.is!=="restored")return Ct(t);switch(e.is){case"changed":return ba(
t,e.rest);case"drawn":return t.name==="drawing"?ya(t,e.whole):Ct(t);case"rested":return pa(t,e);case"written":return t.name==="refining"&&e.turn===t.turn?va(t,e.
later):Ct(t);case"renewed":return X(t,{name:"loading",turn:t.turn+1,fresh:!0},["stop"]);case"lost":return X(t,{name:"lost"},["stop","bare"]);default:return t.name===
"lost"?X(t,{name:"loading",turn:t.turn+1},["refill"]):Ct(t)}}var Ct=t=>({phase:t,deeds:[]}),X=(t,e,n)=>({phase:{...t,...e},deeds:n});function ba(t,e){let n=t.name===
"drawing"?[]:["stop","frame"];return X(t,{name:"drawing",turn:t.turn+1,rest:e},n)}function ya(t,e){if(!e)return X(t,{name:"loading"},[]);let n=t.fresh?["announc\
e","wait"]:["wait"];return X(t,{name:"resting",fresh:!1,ever:!0},n)}function pa(t,{held:e,awaited:n}){return e?Ct(t):t.name==="smoothing"?X(t,{name:"done"},["sm\
ooth"]):t.name!=="resting"?Ct(t):n?X(t,{name:"loading"},[]):X(t,{name:"refining"},["fine"])}function va(t,e){return e?X(t,{name:"smoothing"},["words","wait long\
er"]):X(t,{name:"done"},["words"])}var Rr=170,ka=700,Ma=13e5,Ea=150;function R(t,e=Rr){dt(t,{is:"changed",rest:e})}function dt(t,e){let{phase:n,deeds:o}=Fr(t.phase,e);t.phase=n;for(let r of o)Aa[r](
t)}var Aa={frame:t=>requestAnimationFrame(()=>Sa(t)),stop:t=>clearTimeout(t.rest),wait:t=>Tr(t,t.phase.rest),"wait longer":t=>Tr(t,ka),fine:t=>La(t),smooth:t=>Xt(
t.painter,fn(t,!0),{...Nr,over:Pr(t)}),words:Ca,announce:Ra,bare:t=>{fe(t,!1),t.under.replaceChildren()},refill:ye};function Tr(t,e){t.rest=setTimeout(()=>{Ia(t),
dt(t,{is:"rested",held:t.pointers.size>0,awaited:Lr(t)})},e)}function Ir(t,e){if(!(e===null||t.pictures.some(({state:o})=>o===e))){t.pictures.some(({ghost:o})=>o&&
o.state===e)&&We(t);return}ue.includes(t.choices.cut.way)&&t.cameras.forEach((o,r)=>o&&!o.moved&&Ke(t,r)),R(t,Lr(t)?Rr:0)}function Lr({store:t,pictures:e,data:n}){
let{making:o,queue:r,unpacking:s}=t,i=e.filter(({views:f})=>f),c=f=>f!==null&&f.data===t.data&&i.some(({state:l})=>l===f.kind),a=[n.terminator,...i.map(f=>f.bodies)];
return c(o)||r.some(c)||a.some(f=>f!==null&&s.has(f))}function fn(t,e){let{ratio:n}=t.size;return t.pictures.flatMap((o,r)=>{let s=t.boxes[r].map(c=>Math.round(
c*n)),i=o.views?Ft(t,o,s,t.cameras[r],e):null;return i?[i]:[]})}var Oa=t=>t.pictures.filter(({views:e})=>e).length;function Sa(t){if(t.phase.name!=="drawing")return;
let e=performance.now(),n=fn(t,!0);Xt(t.painter,n,{pixel:t.size.ratio,over:1,shade:!0,coarse:!0}),fe(t,n.length>0),n.length>0&&t.firstTook===void 0&&Ta(t,e);let o=n.
length>0&&n.length===Oa(t)&&!n.some(({former:r})=>r);dt(t,{is:"drawn",whole:o}),o&&Fa(t)}function Fa(t){if(t.waiting.length!==0){Cr(t);for(let e of t.waiting.splice(
0))e(performance.now())}}function Ta(t,e){Cr(t),t.firstTook=performance.now()-e,t.slow=t.firstTook>Ea}function Cr({painter:{gl:t}}){t.bindFramebuffer(t.FRAMEBUFFER,
null),t.readPixels(0,0,1,1,t.RGBA,t.UNSIGNED_BYTE,new Uint8Array(4))}function Ra(t){ye(t);let e=document.documentElement;e.dataset.drawnAt=performance.now().toFixed(
1),e.dataset.drawn=String(Number(e.dataset.drawn||0)+1),window.dispatchEvent(new CustomEvent("fidpath-drawn"))}function Ia(t){for(let e of t.pictures)e.views&&L(
t.store,e.state,!1)&&t.motion===1&&Na(t,e)&&ot(t.store,e.state,!0,!0)}var Nr={pixel:1,shade:!0,coarse:!1},Pr=({size:t})=>t.ratio>=2?1:2;async function La(t){let e=Pr(
t),n=t.slow&&t.canvas.width*t.canvas.height*e*e>Ma,{painter:o}=t,{turn:r}=t.phase,s=[];Xt(o,fn(t,!0),{...Nr,over:n?1:e,asked:s}),t.fine+=1,!(!await ce(o)||o!==t.
painter)&&(t.written=s.map(c=>Wt(o,c)),dt(t,{is:"written",turn:r,later:n}))}function Ca(t){Io(t,t.written.slice());for(let e of t.resting.splice(0))e(performance.
now());Pa(t)}function Na(t,e){return t.cameras[t.pictures.indexOf(e)].scale*t.size.ratio*t.data.states[e.state].thickness>3.5}function Pa(t){for(let e of[1,-1,2]){
let n=t.entries[t.at+e];for(let{state:o,views:r}of n?n.pictures:[])r&&ot(t.store,o,!1,!1)}}var $r={ahead:.88,aside:.48},$a=2.1,_a=.85,Ba=1.5;function _r({pictures:t}){return[...new Set(t.flatMap(({holes:e})=>(e||[]).map(({letter:n})=>n)))]}var Br=({into:t},{
holes:e})=>t&&e&&e.find(({letter:n})=>n===t)||null;function Dr(t,{up:e,left:n}){let[,,o]=t.views[0].axes,r=s=>k(s,E(s,o)<0?-1:1);return{ahead:r(e),aside:r(n),onTop:E(
e,o)>=0}}function Da(t,e,n,o,r){let{ahead:s,aside:i}=Dr(t,e),c=K(A(k(s,$r.ahead),k(i,$r.aside))),[a,f]=t.views[0].axes,l=Math.abs(E(f,c))<.9?f:H(c,a),u=it(c,l),
d=Math.min(n,o-r)/($a*e.half),m=A(e.at,k(u.up,r/(2*d)));return _({...u,centre:m,scale:d},n,o)}function zr(t,e){let n=Br(t,e);if(!n)return null;let{ahead:o,onTop:r}=Dr(
e,n);return{beforeAt:[n.station,_a*n.half],beforeStrands:xt(r?n.top:n.strands&~n.top),beforePlane:[...o,n.high],beforeAxis:[...n.at,Ba*t.data.diameter]}}function Go(t){
let e=_r(t),n=e[e.indexOf(t.into||"")+1]||null;if(!n){yt(t);return}t.into=n,t.pictures.forEach((o,r)=>{let s=Br(t,o);if(!s)return;let[,,i,c]=t.boxes[r],a=t.pictures.
length===1?t.strip:0;t.cameras[r]={...Da(o,s,i,c,a),picture:o,moved:!0}}),jt(t),R(t)}function jt(t){let e=_r(t),n=e[e.indexOf(t.into||"")+1],o=w("into");o.hidden=
e.length===0,o.textContent=n?`Into\xA0${n}`:"Out",o.setAttribute("aria-pressed",String(t.into!==null)),o.title=n?`Look into ${n}; the strands before it are seen\
 through`:"Back to the first view",document.body.classList.toggle("holed",e.length>0)}var ut="shown",Rt="seen through",jo="left out",[de,Ur]=["standing-part","arrow"];function Hr(){return{parts:{},bodies:{terminator:!0,tools:!0,arrow:!0},marks:!0,
words:!0,numbers:!0,ghost:!0,cut:{way:"off",place:.5,only:"all"}}}var D=1e9,za={station:-D,place:[D,D,D],across:[0,0,0]};function Ua(t,e){let n=[...t.pairs];for(;n.
length<4;)n.push(n[n.length-1]);let o=[...t.starts,D,D,D].slice(0,3),r=[0,1].map(i=>t.toned[i]||{host:-D,half:1,top:0,followed:0}),s=[...t.inked,...Array(12).fill(
za)].slice(0,12);return{pairs:nt(3,n.flat().map(bt)),starts:o,blend:t.blend,groups:nt(3,e.groups.map(bt)),toned:nt(2,r.map(({host:i,half:c})=>[i,c])),tops:xt(r[0].
top,r[1].top),followed:xt(r[0].followed,r[1].followed),fade:t.fade,inked:nt(1,s.map(({station:i})=>i)),inkPlaces:nt(3,s.map(({place:i})=>i)),inkAcross:nt(3,s.map(
({across:i})=>i)),marks:q(Math.min(t.inked.length,12)),inkHalf:t.inkHalf,ink:bt(e.ink),dots:nt(3,[...t.dots,[D,D,D],[D,D,D]].slice(0,2)),dotted:q(Math.min(t.dots.
length,2)),dotRadius:t.dotRadius,dotColours:nt(3,e.dot.map(bt))}}function Ha({parts:t,starts:e}){return t.map((n,o)=>[n,o===0?-D:e[o-1],o<e.length?e[o]:D])}function le(t,e,n,o){
let r=Ha(e),s=r.filter(([a])=>(n[a]||ut)===o),i=[];for(let[,a,f]of s){let l=i[i.length-1];l&&l[1]===a?l[1]=f:i.push([a,f])}let c=a=>s.includes(a);return{runs:eo(
t,i),startEnd:c(r[0]),farEnd:c(r[r.length-1]),whole:s.length===r.length}}function qe({place:t},e){let n=Math.round(t*(e.n-1)),o=s=>[e.axis[3*s],e.axis[3*s+1],e.
axis[3*s+2]],r=K(P(o(Math.min(n+4,e.n-1)),o(Math.max(n-4,0))));return{centre:o(n),along:r}}function Ge(t,e,n,o){if(t.way==="off")return null;let{centre:r,along:s}=qe(
t,e),i=t.way==="flat",a={across:s,flat:[0,0,1],upright:K(H([0,0,1],s))}[t.way],f=i?(t.place-.5)*2.2*o:E(a,r),l=E(a,n.toward)<0?-1:1;return{normal:k(a,l),offset:f*
l,mask:t.only==="all"?15:1}}function Ft(t,e,n,o,r){let{data:s,store:i,choices:c}=t,a=Qo(t,e),f=a||L(i,e.state,r),l=f||uo(i,e.state);if(!l)return null;let u=s.states[e.
state],d=Ge(c.cut,l,o,s.diameter),m=le(l,e.paint,c.parts,ut),h=le(l,e.paint,c.parts,Rt),b=a?[]:Wa(t,e,u),y=Va(l,o,b),p=Ua(a?Zo(e.paint):e.paint,s.palette),x=zr(
t,e),[v,M]=[u.thickness,bt(s.palette.line)],O=[o.width,o.height];return{rect:n,size:O,camera:o,rope:l,cut:d,solid:m,clear:h,bodies:b,depths:y,paint:p,before:x,thick:v,
ink:M,former:!f}}function Wa({data:t,store:e,choices:n,view:o},r,{seat:s}){let i=[],c=n.cut.only==="all",a=(f,l)=>i.push({...f,offset:l,cut:c,colour:bt(ja(f))});
s&&n.bodies.terminator&&_e(e,t.terminator).forEach(f=>a(f,s.centre));for(let f of _e(e,r.bodies)){let l=r.views[o]||r.views[0];(f.part===Ur?n.bodies.arrow&&l.arrow:
n.bodies.tools)&&a(f,[0,0,0])}return i}var Ga=[222,225,230];function ja({part:t,colour:e}){return t===Ur&&document.documentElement.dataset.light==="dark"?Ga:e}function Va({
axis:t,radius:e},{toward:n,centre:o},r){let s=E(n,o),[i,c]=[1/0,-1/0];for(let a=0;a<e.length;a+=2){let f=E(n,[t[3*a],t[3*a+1],t[3*a+2]])-s;i=Math.min(i,f-1.5*e[a]),
c=Math.max(c,f+1.5*e[a])}for(let{shape:a,offset:f}of r){let l=E(n,f)-s;for(let u=0;u<a.points.length;u+=3){let d=l+n[0]*a.points[u]+n[1]*a.points[u+1]+n[2]*a.points[u+
2];i=Math.min(i,d),c=Math.max(c,d)}}return[i-1,c+1]}function Wr({axes:t,low:e,high:n}){let o=[];for(let r of[e[0],n[0]])for(let s of[e[1],n[1]]){let i=A(k(t[0],
r),k(t[1],s));for(let c of[e[2],n[2]])o.push(A(i,k(t[2],c)))}return o}function go(t,e,n,o,r,s){let i=t.views[e]||t.views[0],[c,a,f]=i.axes,l=Ie(Wr(i),{right:c,up:a,
toward:f},n,o-s,5*r),u=A(l.centre,k(a,s/(2*l.scale)));return _({...l,centre:u},n,o)}function Vo(t,e,n,o,r){let[s,i]=Vn[e],c=it(Bt(s,t.heading),Bt(i,t.heading));
return Ie(Wr(t.views[0]),c,n,o,5*r)}var Ya=8;function ln(t,e,n,{solid:o,clear:r},[s,i]){let{gl:c}=t,a=Mt(t,"numbers",s,i,!1),f=Nt(t,"numbers");return pe(c,f,{...Xa(o),clearColours:(r||o).colour}),
B(c,f,{scale:[o.width/s,o.height/i],layered:r!==null}),B(c,f,{range:n.range,plane:n.plane}),ve(t,a),{buffer:un(c,a),width:s,height:i,range:n.range,nearest:e.depths[1]}}
function un(t,{frame:e,width:n,height:o}){let r=t.createBuffer();return t.bindFramebuffer(t.FRAMEBUFFER,e),t.bindBuffer(t.PIXEL_PACK_BUFFER,r),t.bufferData(t.PIXEL_PACK_BUFFER,
4*n*o,t.STREAM_READ),t.readPixels(0,0,n,o,t.RGBA,t.UNSIGNED_BYTE,0),t.bindBuffer(t.PIXEL_PACK_BUFFER,null),r}var Xa=({colour:t,depth:e})=>({colours:t,depths:e});
function ce({gl:t}){let e=t.fenceSync(t.SYNC_GPU_COMMANDS_COMPLETE,0);return e?(t.flush(),new Promise(n=>{let o=()=>{let r=t.isContextLost();r||t.getSyncParameter(
e,t.SYNC_STATUS)===t.SIGNALED?n(!r):setTimeout(o,Ya)};o()})):Promise.resolve(!1)}function Wt({gl:t},{buffer:e,...n}){let o=new Uint8Array(4*n.width*n.height);return t.
bindBuffer(t.PIXEL_PACK_BUFFER,e),t.getBufferSubData(t.PIXEL_PACK_BUFFER,0,o),t.bindBuffer(t.PIXEL_PACK_BUFFER,null),t.deleteBuffer(e),{...n,bytes:o}}function St({
width:t,height:e,bytes:n,range:o,nearest:r},s,i){let[c,a]=[Math.floor(s),e-1-Math.floor(i)];if(c<0||a<0||c>=t||a>=e)return null;let f=4*(a*t+c),l=n[f]&127;if(l===
0)return n[f+3]?{strand:-1,toward:-1/0,open:!1}:null;let u=(n[f+1]*256+n[f+2])/65535*o;return{strand:l<dn?l-1:-1,toward:r-u,open:n[f]>127}}function Do(t,e,[n,o],r){
let{painter:s,cameras:i,pictures:c}=t,a=2*r+1,{from:f}=ne(i[e],n,o),l=_({...i[e],centre:f},a,a),u=Ft(t,c[e],[0,0,a,a],l,!0);if(!u)return null;let d=hn(u,a,a),m=Mt(
s,"round",a,a,!0);return mn(s,u,d,m,{pixel:1,over:1,shade:!1,coarse:!1}),Wt(s,ln(s,u,d,{solid:m,clear:null},[a,a]))}var mt=`#version 300 es
precision highp float;
precision highp int;
`,Gr=`
uniform vec4 cut;
uniform float gloss;
uniform float ambient;
uniform float diffuse;

const vec3 KEY = vec3(-0.40274, 0.54919, 0.73225);
const vec3 FILL = vec3(0.77104, -0.21418, 0.59969);

float shine(float along, float lamp, float facing) {
float glint = max(2.0 * along * facing - lamp, 0.0) * step(1e-4, along);
float two = glint * glint;
float eight = two * two * two * two;
return eight * eight * two;
}

vec3 lit(vec3 colour, vec3 normal) {
vec3 n = normalize(normal);
if (n.z < 0.0) n = -n;
float a = max(dot(n, KEY), 0.0);
float b = max(dot(n, FILL), 0.0);
float glint = 0.92 * shine(a, KEY.z, n.z) + 0.40 * shine(b, FILL.z, n.z);
return colour * (ambient + diffuse * (0.92 * a + 0.40 * b)) + gloss * glint;
}
`,wn=`${mt}
layout(location = 0) in vec3 place;
layout(location = 1) in vec3 normal;
layout(location = 2) in uint strand;
layout(location = 3) in float station;
uniform mat4 project;
uniform mat3 turn;
uniform vec3 pairs[8];
uniform vec3 starts;
uniform float blend;
uniform vec3 groups[3];
uniform vec2 toned[2];
uniform float fade;
uniform uint tops[2];
uniform uint followed[2];
out vec3 vColour;
out vec3 vNormal;
out vec3 vPlace;
out float vStation;
flat out uint vGroup;
flat out uint vStretch;

float eased(float x) {
float t = clamp(x, 0.0, 1.0);
return t * t * t * (10.0 - 15.0 * t + 6.0 * t * t);
}

void main() {
uint hand = strand & 1u;
vec3 colour = pairs[hand];
for (uint i = 0u; i < 3u; i++) {
float share = eased((station - starts[i]) / blend + 0.5);
colour = mix(colour, pairs[2u * i + 2u + hand], share);
}
for (int i = 0; i < 2; i++) {
float away = abs(station - toned[i].x) - toned[i].y;
uint top = (tops[i] >> strand) & 1u;
uint group = ((followed[i] >> strand) & 1u) == 1u ? 2u : 1u - top;
colour = mix(colour, groups[group], 1.0 - eased(away / fade + 1.6));
}
vColour = colour;
vNormal = turn * normal;
vPlace = place;
vStation = station;
vGroup = 1u + strand % 110u;
vStretch = station < starts.x ? 0u : station < starts.y ? 1u : station < starts.z ? 2u : 3u;
gl_Position = project * vec4(place, 1.0);
}
`,gn=t=>`${mt}
in vec3 vColour;
in vec3 vNormal;
in vec3 vPlace;
in float vStation;
flat in uint vGroup;
flat in uint vStretch;
uniform float inked[12];
uniform int marks;
uniform vec3 inkPlaces[12];
uniform vec3 inkAcross[12];
uniform vec2 inkHalf;
uniform vec3 ink;
uniform vec3 dots[2];
uniform int dotted;
uniform vec2 dotRadius;
uniform vec3 dotColours[2];
uniform uint cutMask;
uniform int beforeWay;
uniform vec2 beforeAt;
uniform uint beforeStrands;
uniform vec4 beforePlane;
uniform vec4 beforeAxis;
out vec4 colour;
${Gr}
bool isBefore() {
bool own = ((beforeStrands >> (vGroup - 1u)) & 1u) == 1u && abs(vStation - beforeAt.x) < beforeAt.y;
vec3 away = vPlace - beforeAxis.xyz;
float high = dot(away, beforePlane.xyz);
return own || (high > beforePlane.w && length(away - high * beforePlane.xyz) < beforeAxis.w);
}

void main() {
vec3 own = vColour;
for (int i = 0; i < marks; i++) {
vec3 away = vPlace - inkPlaces[i];
bool near = abs(vStation - inked[i]) < inkHalf.x && abs(dot(away, inkAcross[i])) < inkHalf.y;
if (near && away.z > 0.0) own = ink;
}
for (int i = 0; i < dotted; i++) {
float away = distance(vPlace, dots[i]);
if (away < dotRadius.y) own = dotColours[away < dotRadius.x ? 0 : 1];
}
uint group = vGroup;
${t?`if (((cutMask >> vStretch) & 1u) == 1u && dot(cut.xyz, vPlace) > cut.w) discard;
if (beforeWay > 0 && isBefore() != (beforeWay == 2)) discard;
if (!gl_FrontFacing) {
colour = vec4(mix(own, vec3(1.0), 0.45), float(group + 128u) / 255.0);
return;
}`:""}
colour = vec4(lit(own, vNormal), float(group) / 255.0);
}
`,xn=`${mt}
layout(location = 0) in vec3 place;
layout(location = 1) in vec3 normal;
uniform mat4 project;
uniform mat3 turn;
uniform vec3 offset;
out vec3 vNormal;
out vec3 vPlace;

void main() {
vNormal = turn * normal;
vPlace = place + offset;
gl_Position = project * vec4(vPlace, 1.0);
}
`,bn=t=>`${mt}
in vec3 vNormal;
in vec3 vPlace;
uniform vec3 own;
uniform float group;
out vec4 colour;
${Gr}
void main() {
${t?`if (dot(cut.xyz, vPlace) > cut.w) discard;
if (!gl_FrontFacing) {
colour = vec4(mix(own, vec3(1.0), 0.45), (group + 128.0) / 255.0);
return;
}`:""}
colour = vec4(lit(own, vNormal), group / 255.0);
}
`,Kt=`${mt}
void main() {
gl_Position = vec4(vec2(gl_VertexID == 1 ? 3.0 : -1.0, gl_VertexID == 2 ? 3.0 : -1.0), 0.0, 1.0);
}
`,yn=`
uniform float range;
uniform vec4 plane;

float depthOf(sampler2D depths, sampler2D colours, ivec2 p) {
float depth = texelFetch(depths, p, 0).r;
if (depth >= 1.0) return 1e6;
if (plane.z == 0.0 || texelFetch(colours, p, 0).a <= 0.5) return depth * range;
return plane.x * float(p.x) + plane.y * float(p.y) + plane.w;
}
`,pn=t=>`${mt}
uniform sampler2D colours;
uniform sampler2D depths;
uniform int scale;
uniform float reach;
uniform float pixel;
out vec4 shade;
${yn}
void main() {
ivec2 size = textureSize(depths, 0) / scale - 1;
ivec2 at = ivec2(gl_FragCoord.xy);
float here = depthOf(depths, colours, at * scale);
shade = vec4(0.0);
if (here > 9e5) return;
int tile = (at.y & 3) * 4 + (at.x & 3);
float phase = float((tile * 5) & 15) / 16.0;
float sum = 0.0;
for (int i = 0; i < ${t}; i++) {
float away = 1.5 * (float(i) + 0.5 + phase) / float(${t+1}) * reach;
float angle = 2.399963 * float(i) + 6.2831853 * phase;
ivec2 step = ivec2(round(away / pixel * vec2(cos(angle), sin(angle))));
float rise = here - depthOf(depths, colours, clamp(at + step, ivec2(0), size) * scale);
float fall = depthOf(depths, colours, clamp(at - step, ivec2(0), size) * scale) - here;
float lift = rise - clamp(fall, 0.0, away);
sum += clamp(lift / away, 0.0, 1.0) * clamp(4.0 - rise / reach, 0.0, 1.0);
}
shade = vec4(sum / float(${t}), 1.0, 0.0, 1.0);
}
`,jr=`${mt}
uniform sampler2D colours;
uniform sampler2D depths;
uniform sampler2D crevices;
uniform sampler2D clearColours;
uniform sampler2D clearDepths;
uniform int scale;
uniform int spread;
uniform int coarseness;
uniform bool shaded;
uniform bool layered;
uniform float clearShare;
uniform float step;
uniform vec3 ink;
out vec4 picture;
${yn}
float lineAt(sampler2D tints, sampler2D fars, ivec2 p, ivec2 size) {
float own = texelFetch(tints, p, 0).a;
float here = depthOf(fars, tints, p);
float line = 0.0;
for (int i = 0; i < 4; i++) {
ivec2 q = clamp(p + ivec2(i == 0 ? 1 : i == 1 ? -1 : 0, i == 2 ? 1 : i == 3 ? -1 : 0), ivec2(0), size);
float drop = clamp((depthOf(fars, tints, q) - here) / step, 0.0, 1.0);
line = max(line, texelFetch(tints, q, 0).a != own ? max(drop, 0.55) : 0.35 * drop);
}
return line;
}

float openAt(ivec2 at) {
if (!shaded) return 0.92;
ivec2 size = textureSize(crevices, 0) - 1;
vec2 sum = vec2(0.0, 1e-6);
for (int y = -spread; y < spread; y++) {
for (int x = -spread; x < spread; x++) {
sum += texelFetch(crevices, clamp(at / coarseness + ivec2(x, y), ivec2(0), size), 0).rg;
}
}
return 1.0 - min(1.5 * sum.x / sum.y, 1.0);
}

bool isEmpty(ivec2 p) {
return texelFetch(colours, p, 0).a == 0.0 && (!layered || texelFetch(clearColours, p, 0).a == 0.0);
}

vec4 layer(sampler2D tints, sampler2D fars, ivec2 p, ivec2 size, float open) {
vec4 tint = texelFetch(tints, p, 0);
if (tint.a == 0.0) return vec4(0.0);
return vec4(mix(tint.rgb * (0.34 + 0.66 * open), ink, 0.75 * lineAt(tints, fars, p, size)), 1.0);
}

void main() {
ivec2 at = ivec2(gl_FragCoord.xy);
ivec2 size = textureSize(depths, 0) - 1;
picture = vec4(0.0);
if (scale == 1 && isEmpty(at)) return;
float open = openAt(at);
vec4 sum = vec4(0.0);
for (int y = 0; y < scale; y++) {
for (int x = 0; x < scale; x++) {
ivec2 p = at * scale + ivec2(x, y);
vec4 found = layer(colours, depths, p, size, open);
if (layered) {
vec4 near = layer(clearColours, clearDepths, p, size, 0.92) * clearShare;
found = near + found * (1.0 - near.a);
}
sum += found;
}
}
picture = sum / float(scale * scale);
}
`,Vr=`${mt}
uniform sampler2D colours;
uniform sampler2D depths;
uniform sampler2D clearColours;
uniform vec2 scale;
uniform bool layered;
out vec4 numbers;
${yn}
void main() {
ivec2 p = clamp(ivec2(gl_FragCoord.xy * scale), ivec2(0), textureSize(colours, 0) - 1);
float group = texelFetch(colours, p, 0).a;
float through = layered && texelFetch(clearColours, p, 0).a > 0.0 ? 1.0 : 0.0;
uint depth = uint(clamp(depthOf(depths, colours, p) / range, 0.0, 1.0) * 65535.0 + 0.5);
numbers = vec4(group, float(depth >> 8u) / 255.0, float(depth & 255u) / 255.0, through);
}
`;var Ka=16,qa=6,Yr={ambient:.32,diffuse:.72},Ja={ambient:.8,diffuse:.25},Qa=.24,dn=112,Xr={rope:()=>[wn,gn(!1)],"rope-cut":()=>[wn,gn(!0)],body:()=>[xn,bn(!1)],"\
body-cut":()=>[xn,bn(!0)],compose:()=>[Kt,jr],quick:()=>[Kt,pn(qa)],fine:()=>[Kt,pn(Ka)],numbers:()=>[Kt,Vr]},Za=["rope","body","quick","compose"];function kn(t){
let e=t.getContext("webgl2",{alpha:!0,antialias:!1,depth:!1,premultipliedAlpha:!0});if(!e)throw new Error("this browser has no WebGL2");let n={canvas:t,gl:e,programs:new Map,
patterns:new Map,targets:new Map,whole:e.createVertexArray()};for(let o of Za)n.programs.set(o,Ce(e,...Xr[o]()));for(let o of n.programs.values())Ne(e,o);return n}
function Nt(t,e){let n=t.programs.get(e)||Ne(t.gl,Ce(t.gl,...Xr[e]()));return t.programs.set(e,n),t.gl.useProgram(n.program),n}function Kr(t){let e=At(t.gl,{rays:3,
n:2,strands:1,refine:1,count:Int32Array.of(2),station:Float64Array.of(0,1),axis:new Float32Array(6),radius:Float32Array.of(1,1),vertices:new ArrayBuffer(N*14)}),
n=_({...it([0,0,1],[0,1,0]),centre:[0,0,0],scale:1},8,8),o={runs:[[0,1]],startEnd:!1,farEnd:!1,whole:!0},r={...o,runs:[]},s={points:new Float32Array(9),normals:new Float32Array(
9)},i={part:"",faces:1,colour:[0,0,0],gloss:0,flat:!1,offset:[0,0,0],cut:!1,shape:s,onCard:Be(t.gl,s)};Xt(t,[{rect:[0,0,8,8],size:[8,8],camera:n,rope:e,solid:o,
clear:r,bodies:[i],depths:[-1,1],cut:null,before:null,thick:1,paint:{},ink:[0,0,0]}],{pixel:1,over:1,shade:!0,coarse:!0}),ct(t.gl,e)}function Be(t,{points:e,normals:n}){
let o=t.createVertexArray();t.bindVertexArray(o);for(let[r,s]of[e,n].entries())zt(t,t.ARRAY_BUFFER,s),t.enableVertexAttribArray(r),t.vertexAttribPointer(r,3,t.FLOAT,
!1,0,0);return t.bindVertexArray(null),{array:o,count:e.length/3}}function Mt(t,e,n,o,r){let s=t.targets.get(e);if(s&&s.width===n&&s.height===o)return s;s&&Jn(t.
gl,s);let i=qn(t.gl,n,o,r);return t.targets.set(e,i),i}function Xt(t,e,n){let{gl:o,canvas:r}=t;o.bindFramebuffer(o.FRAMEBUFFER,null),o.disable(o.SCISSOR_TEST),o.
clearColor(0,0,0,0),o.clear(o.COLOR_BUFFER_BIT);for(let s of e)tf(t,s,n);e.length===0&&o.viewport(0,0,r.width,r.height)}function tf(t,e,n){ff(t,e.rect,qr(t,e,n))}
function So(t,e){let n=qr(t,e,{pixel:1,over:2,shade:!0,coarse:!1,own:"inset "});return{buffer:un(t.gl,n),width:n.width,height:n.height,range:1,nearest:0}}function qr(t,e,n){
let[,,o,r]=e.rect,s=n.own||"",i=Math.max(Math.round(o/n.pixel),1),c=Math.max(Math.round(r/n.pixel),1),a=hn(e,i*n.over,c*n.over),f=Mt(t,`${s}solid`,i*n.over,c*n.
over,!0);mn(t,e,a,f,n);let u=e.clear.runs.length>0||e.before?sf(t,e,a,f,n):null;n.shade&&cf(t,e,a,f,i,c,n);let d=Mt(t,`${s}picture`,i,c,!1);return af(t,e,a,{solid:f,
clear:u,picture:d},n),n.asked&&n.asked.push(ln(t,e,a,{solid:f,clear:u},e.size)),d}function mn(t,e,n,o,r){Jr(t,o),vn(t,e,n,e.solid,r,e.before?nf:Mn);for(let[s,i]of e.
bodies.entries())rf(t,e,n,i,s)}function hn({camera:t,depths:e,cut:n},o,r){let{right:s,up:i,toward:c,centre:a}=t,f=e[1]-e[0],l=[t.halfWidth,t.halfHeight,f/2],u=A(
a,k(c,e[1]-f/2)),d=[k(s,1/l[0]),k(i,1/l[1]),k(c,-1/l[2])],m=new Float32Array(16);d.forEach((y,p)=>{for(let x=0;x<3;x++)m[4*x+p]=y[x];m[12+p]=-E(y,p<2?a:u)}),m[15]=
1;let h=Float32Array.from([0,1,2].flatMap(y=>[s[y],i[y],c[y]])),b=2*t.halfWidth/o;return{project:m,turn:h,range:f,pixel:b,plane:ef(t,n,e[1],b,o,r)}}function ef({
right:t,up:e,toward:n,centre:o},r,s,i,c,a){if(!r||Math.abs(E(r.normal,n))<.001)return[0,0,0,0];let[f,l,u]=[t,e,n].map(h=>E(r.normal,h)),m=(r.offset-E(r.normal,o)+
f*(c/2-.5)*i+l*(a/2-.5)*i)/u;return[f/u*i,l/u*i,1,s-m]}function Jr({gl:t},{frame:e,width:n,height:o}){t.bindFramebuffer(t.FRAMEBUFFER,e),t.viewport(0,0,n,o),t.enable(
t.DEPTH_TEST),t.clear(t.COLOR_BUFFER_BIT|t.DEPTH_BUFFER_BIT)}function Qr(t,e,n){t.enable(t.CULL_FACE),e&&(t.cullFace(t.FRONT),t.enable(t.POLYGON_OFFSET_FILL),t.
polygonOffset(0,-16),n(),t.disable(t.POLYGON_OFFSET_FILL),t.cullFace(t.BACK)),n(),t.disable(t.CULL_FACE)}var Zr=t=>t?{cut:[...t.normal,t.offset]}:{},[Mn,nf,of]=[
0,1,2];function vn(t,e,n,o,r,s){let{rope:i,paint:c,cut:a,before:f}=e,l=a!==null||!o.whole||s!==Mn,u=Nt(t,l?"rope-cut":"rope");B(t.gl,u,{project:n.project,turn:n.
turn,...c,...Yr,gloss:.15}),B(t.gl,u,{...Zr(a),cutMask:xt(a?a.mask:0)}),B(t.gl,u,{...f,beforeWay:q(s)});let d=no(i,2.5*e.thick/(n.pixel*r.over),r.coarse);Qr(t.gl,
l,()=>oo(t,i,o,e.camera,d))}function rf(t,e,n,o,r){let{gl:s}=t,i=o.cut?e.cut:null,c=Nt(t,i?"body-cut":"body"),a=o.flat?Ja:Yr,f=dn+r%15;B(s,c,{project:n.project,
turn:n.turn,...a,gloss:o.gloss,...Zr(i)}),B(s,c,{offset:o.offset,own:o.colour,group:f}),s.bindVertexArray(o.onCard.array),Qr(s,i!==null,()=>s.drawArrays(s.TRIANGLES,
0,o.onCard.count))}function sf(t,e,n,o,r){let{gl:s}=t,{width:i,height:c}=o,a=Mt(t,`${r.own||""}clear`,i,c,!0);return Jr(t,a),s.bindFramebuffer(s.READ_FRAMEBUFFER,
o.frame),s.bindFramebuffer(s.DRAW_FRAMEBUFFER,a.frame),s.blitFramebuffer(0,0,i,c,0,0,i,c,s.DEPTH_BUFFER_BIT,s.NEAREST),s.bindFramebuffer(s.FRAMEBUFFER,a.frame),
vn(t,e,n,e.clear,r,Mn),e.before&&vn(t,e,n,e.solid,r,of),a}function pe(t,e,n){Object.entries(n).forEach(([o,r],s)=>{t.activeTexture(t.TEXTURE0+s),t.bindTexture(t.
TEXTURE_2D,r),B(t,e,{[o]:q(s)})})}function ve(t,e){let{gl:n}=t;n.bindFramebuffer(n.FRAMEBUFFER,e.frame),n.viewport(0,0,e.width,e.height),n.disable(n.DEPTH_TEST),
n.bindVertexArray(t.whole),n.drawArrays(n.TRIANGLES,0,3)}function cf(t,e,n,o,r,s,i){let{gl:c}=t,a=i.coarse?2:1,f=Nt(t,i.coarse?"quick":"fine"),l=Mt(t,`${i.own||
""}crevices`,Math.ceil(r/a),Math.ceil(s/a),!1),u=i.over*a;pe(c,f,{colours:o.colour,depths:o.depth}),B(c,f,{scale:q(u),reach:e.thick,pixel:n.pixel*u}),B(c,f,{range:n.
range,plane:n.plane}),ve(t,l)}function af(t,e,n,{solid:o,clear:r,picture:s},i){let{gl:c}=t,a=Nt(t,"compose"),f=r||o,l=i.shade&&t.targets.get(`${i.own||""}crevic\
es`)||o;pe(c,a,{colours:o.colour,depths:o.depth,crevices:l.colour,clearColours:f.colour,clearDepths:f.depth});let[u,d]=i.coarse?[1,2]:[2,1];B(c,a,{scale:q(i.over),
shaded:i.shade}),B(c,a,{spread:q(u),coarseness:q(d)}),B(c,a,{layered:r!==null,clearShare:Qa}),B(c,a,{step:.3*e.thick,ink:e.ink,range:n.range,plane:n.plane}),ve(
t,s)}function ff({gl:t,canvas:e},[n,o,r,s],i){t.bindFramebuffer(t.READ_FRAMEBUFFER,i.frame),t.bindFramebuffer(t.DRAW_FRAMEBUFFER,null);let[c,a]=[e.height-o-s,e.
height-o],l=i.width===r&&i.height===s?t.NEAREST:t.LINEAR;t.blitFramebuffer(0,0,i.width,i.height,n,c,n+r,a,t.COLOR_BUFFER_BIT,l)}function ts(t){let e=n=>()=>new Promise(o=>n.push(o));return{entries:()=>[...t.all.steps,...t.all.wrong].map(({key:n})=>n),shown:()=>({key:t.entry.key,at:t.at,drawn:t.
pictures.map(({state:n})=>lf(t,n))}),go:n=>Lt(t,n),idle:()=>uf(t),boxes:()=>t.boxes,fine:()=>t.fine,camera:(n=0)=>t.cameras[n],measured:()=>t.measured.points.length===
2?je(t.measured.points):null,timing:()=>({first:t.firstTook,slow:t.slow,maker:t.store.maker.kind}),drawn:e(t.waiting),still:e(t.resting),sections:(n,o,r)=>df(t,
n,o,r)}}var lf=(t,e)=>L(t.store,e,!1)!==null;function uf(t){let{making:e,queue:n}=t.store;return["smoothing","done"].includes(t.phase.name)&&!e&&n.length===0}async function df({
data:t},e,n,o){let r=t.states[e];return $t(await Qt(r,r.text),n,o,t.law)}var es=(t,e)=>Math.hypot(e[0]-t[0],e[1]-t[1])>7;function ns(t,e,n){let[o,r]=[t,e].map(c=>[c[0]-n[0],c[1]-n[1]]),s=o[0]*r[1]-o[1]*r[0],i=Math.atan2(s,o[0]*r[0]+o[1]*
r[1]);return{factor:Math.hypot(r[0],r[1])/Math.max(Math.hypot(o[0],o[1]),1),turn:Math.abs(i)<.5?i:0,shift:[(e[0]-t[0])/2,(e[1]-t[1])/2],middle:[(t[0]+n[0])/2,(t[1]+
n[1])/2]}}function os(t,e){let[n,o]=[e[0]-t[0],e[1]-t[1]];return Math.abs(n)<=60||Math.abs(n)<=2*Math.abs(o)?0:n<0?1:-1}var rs=t=>Math.exp(-Math.min(Math.max(t,
-200),200)*.0022);var ss={touch:22,pen:10,mouse:3};function as(t){let{canvas:e}=t;e.addEventListener("pointerdown",n=>mf(t,n)),e.addEventListener("pointermove",n=>hf(t,n)),e.addEventListener(
"pointerup",n=>is(t,n)),e.addEventListener("pointercancel",n=>is(t,n)),e.addEventListener("wheel",n=>xf(t,n),{passive:!1}),e.addEventListener("dblclick",()=>yt(
t)),e.addEventListener("contextmenu",n=>n.preventDefault()),document.addEventListener("keydown",n=>yf(t,n)),Mf(t,w("words")),new ResizeObserver(()=>{ft(t),R(t)}).
observe(w("picture"))}function En({canvas:t},e){let n=t.getBoundingClientRect();return[e.clientX-n.left,e.clientY-n.top]}function An(t,[e,n]){let o=([i,c,a,f])=>e>=
i&&n>=c&&e<i+a&&n<c+f,r=t.boxes.findIndex(o),s=Math.max(r,0);return{i:s,x:e-t.boxes[s][0],y:n-t.boxes[s][1]}}function mf(t,e){t.canvas.setPointerCapture(e.pointerId);
let n=En(t,e);t.pointers.set(e.pointerId,{spot:n,start:n,button:e.button,slipped:!1}),t.pinched=t.pointers.size>1}function hf(t,e){let n=t.pointers.get(e.pointerId);
if(!n)return;let o=En(t,e),[r,s]=[o[0]-n.spot[0],o[1]-n.spot[1]];es(n.start,o)&&(n.slipped=!0),n.slipped&&(t.pointers.size>1?wf(t,n,o):n.button!==0||e.shiftKey?
pt(t,i=>ee(i,r,s)):pt(t,i=>Le(i,r,s)),n.spot=o)}function wf(t,e,n){let{spot:o}=[...t.pointers.values()].find(m=>m!==e)||e,{factor:r,turn:s,shift:i,middle:c}=ns(
e.spot,n,o),{i:a,x:f,y:l}=An(t,c),[,,u,d]=t.boxes[a];pt(t,m=>jn(m,{factor:r,turn:s,shift:i},[f-u/2,l-d/2]))}function is(t,e){let n=t.pointers.get(e.pointerId);t.
pointers.delete(e.pointerId),n&&!n.slipped&&!t.pinched&&e.type==="pointerup"&&gf(t,n.spot,e),R(t)}function gf(t,e,{pointerType:n}){if(t.tab!=="measure"||t.motion<
1||t.phase.name==="lost")return;let{i:o,x:r,y:s}=An(t,e),i=t.pictures[o].views?$o(t,o,r,s,ss[n]||ss.mouse):null;i?_o(t,i):Q(t,"No rope there.",2500)}function xf(t,e){
e.preventDefault();let{i:n,x:o,y:r}=An(t,En(t,e)),[,,s,i]=t.boxes[n];pt(t,c=>Dt(c,rs(e.deltaY),[o-s/2,r-i/2]))}var bf={ArrowLeft:[-40,0],ArrowRight:[40,0],ArrowUp:[
0,-40],ArrowDown:[0,40]};function yf(t,e){if(e.ctrlKey||e.metaKey||(e.key==="Escape"&&kf(t),t.practice.on))return;let n=bf[e.key];if(n&&e.shiftKey){e.preventDefault(),
pt(t,s=>e.altKey?ee(s,...n):Le(s,...n));return}let o=e.key in cs;if(e.altKey||fs(e).closest(`input, select, textarea${o?"":", [role=tab]"}`))return;let r=o?vf(t,
e,cs[e.key]):pf[e.key];r&&(r(t),e.preventDefault())}var fs=t=>t.target,pf={ArrowLeft:t=>I(t,t.at-1),ArrowRight:t=>I(t,t.at+1),"+":t=>Tt(t,1.35),"=":t=>Tt(t,1.35),
"-":t=>Tt(t,1/1.35),0:yt},cs={PageUp:-1,PageDown:1};function vf(t,e,n){if(fs(e).closest("[role=tabpanel]"))return null;if(t.tab==="words")return()=>I(t,t.at+n);
let o=w(t.tab);return()=>o.scrollBy({top:.9*n*o.clientHeight})}function kf(t){t.practice.on?V(t,!1):t.bench?et(t,!1):t.entry.kind==="wrong"&&nn(t)}function Mf(t,e){
let n=null;e.addEventListener("touchstart",o=>{n=o.touches.length===1?[o.touches[0].clientX,o.touches[0].clientY]:null},{passive:!0}),e.addEventListener("touche\
nd",o=>{if(!n)return;let{clientX:r,clientY:s}=o.changedTouches[0],i=os(n,[r,s]);n=null,i!==0&&I(t,t.at+i)},{passive:!0})}var On=.05;function Ef(t){let{before:e,after:n,...o}=t;return e!==void 0&&n!==void 0?{...o,take_up:e-n}:o}function Af({planned:t,least:e,most:n},o){let r=o-t,s=r>=
(e??-1/0)-On&&r<=(n??1/0)+On;return{off:r,within:s}}function Of(t,e,n){let o=a=>String(a).padStart(2,"0"),r=`${n.getFullYear()}-${o(n.getMonth()+1)}-${o(n.getDate())}`,
s=Object.entries(t).map(([a,f])=>`${a} = "${Number(f.toFixed(2))} mm"`),i="# Measured at the bench. Hold it against the plan: fidpath compare JOB.toml measured.\
toml",c=`# Job: ${e.replace(/[^\P{C}\t]/gu," ")}`;return[i,c,"schema = 1","","[measured]",`date = ${r}`,...s,""].join(`
`)}function ke(t){try{return JSON.parse(Z(Yt("measured",t.data))||"{}")}catch{return{}}}function us(t){let e=ke(t),{asked:n}=t.data.measuring,o=n.map(({name:r})=>[
r,yo(e[r]||"",t.data.unit)]);return Object.fromEntries(o.filter(([,r])=>!Number.isNaN(r)))}function Sn(t){let e=ke(t),n=t.data.measuring.asked.map(({name:o,words:r})=>{
let s=`typed-${o}`,i=g("p",{id:`${s}-said`,class:"small",role:"status"}),c=g("input",{id:s,type:"text",inputmode:"decimal",autocomplete:"off","aria-describedby":i.
id});c.value=e[o]||"",c.addEventListener("input",()=>{j(Yt("measured",t.data),JSON.stringify({...ke(t),[o]:c.value})),ls(t)});let a=g("label",{for:s,text:`${r},\
 ${t.data.unit}`});return g("div",{class:"typed"},g("div",{class:"row"},a,c),i)});w("typed").replaceChildren(...n),ls(t)}function ls(t){let{asked:e,figures:n}=t.
data.measuring,o=us(t),r=ke(t),s=Ef(o);for(let{name:i}of e){let c=n.find(u=>u.name===(i==="after"?"take_up":i)),a=(r[i]||"").trim()!==""&&o[i]===void 0;T(`typed\
-${i}`).setAttribute("aria-invalid",String(a));let f=w(`typed-${i}-said`),l=c&&s[c.name];f.textContent=a?`That isn't a length: write a number, in ${t.data.unit}\
.`:"",f.className=a?"small off":"small",!a&&c&&l!==void 0&&Sf(t,f,c,l)}w("typed-save").hidden=w("typed-clear").hidden=Object.keys(o).length===0,w("typed-file").
hidden=!0}function Sf(t,e,n,o){let{off:r,within:s}=Af(n,o),i=l=>ie(Math.abs(l),t.data.unit),c=Math.abs(r)<=On?"As planned":`${i(r)} ${r>0?"more":"less"} than pl\
anned`,a=[n.least===null?"":`${i(n.least)} less`,n.most===null?"":`${i(n.most)} more`].filter(Boolean),f=s?"that is within what is allowed":"that is more than i\
s allowed; fidpath compare says what follows";e.textContent=`${n.label}: ${i(o)}. ${c} (${i(n.planned)}): ${f}. Allowed: up to ${a.join(" or ")} (${n.why}).`,e.
className=s?"small within":"small off"}function Ff(t){let e=Of(us(t),t.data.name,new Date),n=g("a",{href:URL.createObjectURL(new Blob([e],{type:"application/tom\
l"}))});n.download="measured.toml",n.click(),setTimeout(()=>URL.revokeObjectURL(n.href),6e4);let o=w("typed-file");o.textContent=e,o.hidden=!1}function ds(t){w(
"typed-save").addEventListener("click",()=>Ff(t)),w("typed-clear").addEventListener("click",()=>{j(Yt("measured",t.data),"{}"),Sn(t),w("typed").querySelector("i\
nput")?.focus()})}var Tf=1;function ms(t){let e;try{e=JSON.parse(t)}catch(n){throw new Error(`the page's data can't be read (${at(n)})`)}if(e===null||e.page!==Tf)throw new Error(
"these are no data of a splice for this page");for(let n of["name","steps","wrong","states","tables","practice","measuring","law","palette"])if(e[n]===void 0)throw new Error(
`the page's data lack their ${n}`);return e}function Rf(){let t=w("data"),{length:e,crc:n}=t.dataset,o=t.textContent;if(o.length!==Number(e))throw new Error(`th\
is page is cut short: ${o.length} of ${e} characters of its data are here`);if(Jt(o)!==Number(n))throw new Error("this page was damaged on its way: its data don\
't match their check sum");return o}function If(t,e){let n=ao(t,c=>Ir(i,c),c=>Q(i,c));ot(n,t.aim,!1,!0,t.home.only);let o=De(e,3),r=kn(e);n.painter=r,Kr(r);let s=sn(
t),i={data:t,canvas:e,painter:r,store:n,choices:Hr(),pointers:new Map,pinched:!1,all:s,entries:s.steps,entry:s.aim,at:-1,leftAt:0,view:0,into:null,tab:"words",bench:!1,
cameras:[],pictures:[],boxes:[],measured:{points:[]},practice:{on:!1,at:0,tries:0,first:0,done:!1},labels:w("labels"),over:w("over"),under:w("under"),note:w("no\
te"),corner:w("corner"),covers:[w("corner"),w("sides"),w("motion")],strip:0,size:o,phase:Sr,written:[],fine:0,slow:!1,firstTook:void 0,rest:void 0,saying:void 0,
waiting:[],resting:[],awake:null,waking:!1,motion:1,moving:null,reading:he,aloud:void 0,spoken:null,fragment:void 0,returning:!1,keptAt:0,steer:{slider:T("slide\
r"),place:w("place"),before:T("before"),after:T("after")}};return i}function hs(t,e,n){t.data=e,fo(t.store,e,t.pictures.map(({state:o})=>o)),t.all=sn(e),dt(t,{is:"\
renewed"}),document.title=`${e.name}: ${e.title}`,w("job").textContent=e.name,w("method").textContent=e.title,w("practise").hidden=e.practice.length===0,pr(t),Sn(
t),t.measured.points=[],Lt(t,n)}function Lt(t,e){let n=t.all.wrong.some(o=>o.key===e);t.entries=n?t.all.wrong:t.all.steps,I(t,Math.max(t.entries.findIndex(o=>o.
key===e),0))}function Lf(t,e){let n=ms(e),{key:o}=t.entry,r=t.cameras.map(s=>s&&s.moved&&{...s,state:s.picture.state});t.practice.on&&V(t,!1),hs(t,n,o),r.forEach(
(s,i)=>{let c=t.pictures[i];s&&c&&c.state===s.state&&(t.cameras[i]={...s,picture:c,moved:!0})}),ft(t),R(t)}function Cf(t){t.canvas.addEventListener("webglcontex\
tlost",e=>{e.preventDefault(),dt(t,{is:"lost"}),Q(t,an(t))}),t.canvas.addEventListener("webglcontextrestored",()=>{try{t.painter=kn(t.canvas)}catch(e){Q(t,`The \
picture can't come back: ${at(e)}. Load the page again.`);return}t.store.painter=t.painter,t.store.kept.clear(),t.store.former.clear(),t.store.bodies.clear(),t.
moving=null,dt(t,{is:"restored"}),cn(t)})}function Nf(t){let e=`The 3D model can't be shown here: ${t}. Below are the pictures, words and tables.`;w("plain").prepend(
g("p",{class:"caution",role:"alert",text:e})),w("plain").classList.add("shown");for(let n of["live","bench","practise"])w(n).remove();window.fidpathLoad=()=>{throw new Error(
`there is no model to put them in: ${t}`)}}function Pf(t){for(let e of["live","plain"])w(e).remove();document.body.append(g("p",{class:"broken",role:"alert",text:`${t}\
. Ask for the file again.`}))}function ws(){if(getComputedStyle(document.querySelector(".partial")).display!=="none")return;lr(),document.documentElement.classList.
add("scripted");let t;try{t=ms(Rf())}catch(e){Pf(at(e));return}w("live").hidden=!1;try{if(!("DecompressionStream"in window))throw new Error("this browser is too\
 old to unpack it");$f(t)}catch(e){Nf(at(e))}}function $f(t){let e=If(t,w("canvas"));Ho(e),fr(e),ds(e),xr(),er(e),hr(e),ur(e),as(e),Cf(e),hs(e,t,be(location.hash).
at),tt(e,"words"),Ar(e),window.fidpathLoad=n=>Lf(e,n),window.fidpathPage=ts(e)}typeof document>"u"?Gn(self):document.addEventListener("DOMContentLoaded",ws);})();
